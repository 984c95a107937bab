import type { LogTable } from "./log-table.ts";

/** A table as comma-separated text (RFC 4180 with line feeds alone): `time_s` first, `mode` last. */
export function csvText({ rows, time, columns, mode }: LogTable): string {
  const lines = [["time_s", ...columns.map(({ column }) => column), "mode"].join(",")];
  for (let row = 0; row < rows; row++) {
    let line = String(time[row]!);
    for (const { values } of columns) {
      const value = values[row]!;
      line += Number.isNaN(value) ? "," : `,${value}`;
    }
    lines.push(`${line},${mode[row]}`);
  }
  return `${lines.join("\n")}\n`;
}
