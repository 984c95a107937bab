/** Client: unpacks datasets. One row object per view, because Vega marks the rows that it takes in. */
export const SCRIPT_DATA = `
const packed = JSON.parse(document.getElementById("charts").textContent);
const flightLength = packed.whole.end - packed.whole.start;

for (const columns of packed.datasets) {
  if (!columns.time) continue;
  let steps = 0;
  columns.time = columns.time.map((step) => (steps += step) / 1e4);
}

function rowsOf(columns) {
  const names = Object.keys(columns);
  const count = names.length === 0 ? 0 : columns[names[0]].length;
  const rows = new Array(count);
  for (let index = 0; index < count; index++) {
    const row = {};
    for (const name of names) row[name] = columns[name][index];
    rows[index] = row;
  }
  return rows;
}

/** Index of the row nearest in time that holds a value, or -1 where the data is missing there. */
function nearest(columns, time) {
  const times = columns.time;
  let low = 0;
  let high = times.length;
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (times[middle] < time) low = middle + 1; else high = middle;
  }
  const after = Math.min(low, times.length - 1);
  const before = Math.max(0, low - 1);
  const best = Math.abs(times[after] - time) < Math.abs(times[before] - time) ? after : before;
  return columns.value[best] === null ? -1 : best;
}
`;
