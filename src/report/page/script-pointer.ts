/** Client: reading values and zooming on a chart over time, by pointer and by keyboard. */
export const SCRIPT_POINTER = String.raw`
function timeAt(figure, x) {
  const { left, width } = figure.frame();
  const share = Math.min(1, Math.max(0, (x - left) / width));
  return figure.shown.start + share * (figure.shown.end - figure.shown.start);
}

function placeOf(figure, time) {
  const { left, width } = figure.frame();
  return left + ((time - figure.shown.start) / (figure.shown.end - figure.shown.start)) * width;
}

function part(figure, name) {
  let element = figure.plot.querySelector("." + name);
  if (!element) {
    element = document.createElement("div");
    element.className = name;
    figure.plot.append(element);
  }
  return element;
}

function hideCursor(figure) {
  figure.plot.querySelector(".cursor")?.remove();
  figure.cursor = undefined;
}

function showCursor(figure, time) {
  figure.cursor = time;
  part(figure, "cursor").style.left = placeOf(figure, time) + "px";
  const values = figure.chart.readout.map(({ data, label, unit }) => {
    const columns = packed.datasets[figure.chart.data[data]];
    const index = columns ? nearest(columns, time) : -1;
    return label + " " + (index < 0 ? "no data" : String(columns.value[index]).replace("-", "\u2212") + (unit ? " " + unit : ""));
  });
  const text = "at " + time.toFixed(2) + " s" + (values.length ? ": " + values.join(", ") : "");
  figure.element.querySelector(".readout").textContent = text;
  figure.plot.setAttribute("aria-valuenow", time.toFixed(2));
  figure.plot.setAttribute("aria-valuetext", text);
}

function keys(figure, event) {
  const { start, end } = figure.shown;
  const at = figure.cursor ?? (start + end) / 2;
  const step = (end - start) / (event.ctrlKey ? 10 : 100);
  const move = (time) => showCursor(figure, Math.min(end, Math.max(start, time)));
  const pan = (share) => go({ window: shift({ start, end }, share), finding: null });
  const actions = {
    ArrowLeft: () => (event.shiftKey ? pan(-0.25) : move(at - step)),
    ArrowRight: () => (event.shiftKey ? pan(0.25) : move(at + step)),
    PageUp: () => pan(0.8),
    PageDown: () => pan(-0.8),
    Home: () => move(start),
    End: () => move(end),
    "+": () => go({ window: zoom({ start, end }, 0.5, at), finding: null }),
    "-": () => go({ window: zoom({ start, end }, 2, at), finding: null }),
    Backspace: steps.back,
    Escape: steps.home,
  };
  const action = actions[event.key === "=" ? "+" : event.key];
  if (!action || event.altKey || event.metaKey) return;
  event.preventDefault();
  action();
}

for (const figure of figures.filter(({ chart }) => chart.time)) {
  const { plot } = figure;
  let from = null;
  const x = (event) => event.clientX - plot.getBoundingClientRect().left;
  plot.addEventListener("focus", () => figure.comesNear(true));
  plot.addEventListener("keydown", (event) => keys(figure, event));
  plot.addEventListener("pointermove", (event) => {
    if (!figure.view) return;
    showCursor(figure, timeAt(figure, x(event)));
    if (from === null) return;
    const [left, right] = [from, x(event)].sort((a, b) => a - b);
    if (right - left <= 6) return;
    plot.setPointerCapture(event.pointerId);
    Object.assign(part(figure, "brush").style, { left: left + "px", width: right - left + "px" });
  });
  // A finger that is lifted leaves as well: what it pointed at stays to be read.
  plot.addEventListener("pointerleave", (event) => {
    from = null;
    if (event.pointerType !== "touch") hideCursor(figure);
  });
  plot.addEventListener("pointerdown", (event) => {
    if (event.button !== 0 || !figure.view) return;
    from = x(event);
    showCursor(figure, timeAt(figure, from));
  });
  plot.addEventListener("pointerup", (event) => {
    plot.querySelector(".brush")?.remove();
    if (from === null) return;
    const [left, right] = [from, x(event)].sort((a, b) => a - b);
    from = null;
    if (right - left > 6) go({ window: within(timeAt(figure, left), timeAt(figure, right)), finding: null });
  });
  plot.addEventListener("pointercancel", () => { from = null; plot.querySelector(".brush")?.remove(); });
  plot.addEventListener("dblclick", () => steps.back());
  plot.addEventListener("wheel", (event) => {
    if (!event.ctrlKey || !figure.view) return;
    event.preventDefault();
    go({ window: zoom(figure.shown, event.deltaY > 0 ? 1.25 : 0.8, timeAt(figure, x(event))), finding: null });
  }, { passive: false });
}
`;
