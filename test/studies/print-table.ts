/** Prints rows as a Markdown table whose columns line up. */
export function printTable(head: readonly string[], rows: readonly (readonly string[])[]): void {
  const widths = head.map((title, i) => Math.max(title.length, ...rows.map((row) => row[i]!.length)));
  const line = (cells: readonly string[]) => `| ${cells.map((cell, i) => cell.padEnd(widths[i]!)).join(" | ")} |`;
  console.log([line(head), line(widths.map((width) => "-".repeat(width))), ...rows.map(line)].join("\n"));
}
