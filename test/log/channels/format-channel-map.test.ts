import fc from "fast-check";
import { expect, test } from "vitest";
import { formatChannelMap, type Mapping, parseChannelMap } from "../../../src/log/index.ts";

const mappingOf = (column: string): Mapping => ({
  source: "words",
  file: null,
  sha256: null,
  time: { column, unit: "ms", rate: null },
  matches: [
    { channel: "altitude", column, unit: "mm", sign: -1, scale: 0.5, offset: 3, confidence: 0.7, why: column },
    { channel: "motor.1.command", column, unit: "1", sign: 1, scale: 1, offset: 0, confidence: 1, why: column },
    { channel: "mode", column, unit: "", sign: 1, scale: 1, offset: 0, confidence: 0.5, why: column },
  ],
  questions: [{ channel: "altitude", column, text: `Is "${column}" in mm?` }],
});

test("a map that was written reads back as it was, whatever the columns are called", () => {
  const letters = fc.constantFrom(
    "a",
    " ",
    "#",
    ":",
    '"',
    "'",
    "\n",
    "\r",
    "\t",
    "{",
    "}",
    ",",
    "é",
    "\u2028",
    "\u0085",
    "1",
    "-",
  );
  fc.assert(
    fc.property(fc.string({ unit: letters }), (column) => {
      const map = parseChannelMap(formatChannelMap(mappingOf(column), { unmatched: [column], log: column }), "f");
      expect(map.time).toEqual({ column, unit: "ms" });
      expect(map.channels.get("altitude")).toEqual({ column, unit: "mm", sign: -1, scale: 0.5, offset: 3 });
      expect(map.channels.get("motor.1.command")).toEqual({ column, unit: "1", sign: 1, scale: 1, offset: 0 });
      expect(map.channels.get("mode")!.column).toBe(column);
    }),
  );
});

test("the questions stand on top, the other units beside each channel", () => {
  const text = formatChannelMap(mappingOf("h"), { unmatched: ["spare"] });
  expect(text).toContain('# To confirm: Is "h" in mm?\n');
  expect(text).toContain(
    "altitude: { column: h, unit: mm, sign: -1, scale: 0.5, offset: 3 }  # 70 % sure: h; unit: m or mm or cm or ft",
  );
  expect(text).toContain("#   spare");
});
