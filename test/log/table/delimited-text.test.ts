import fc from "fast-check";
import { expect, test } from "vitest";
import { sniffDecimal, sniffSeparator, splitRecords } from "../../../src/log/table/delimited-text.ts";

const quoted = (cell: string) => `"${cell.replaceAll('"', '""')}"`;

test("splitRecords gives back any cells that were written as RFC 4180 says", () => {
  const cell = fc.string({ unit: fc.constantFrom("a", ",", ";", "\t", '"', "\n", "\r", "é", " ") });
  const records = fc.array(fc.array(cell, { minLength: 1, maxLength: 5 }), { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(records, fc.constantFrom(",", ";", "\t"), fc.constantFrom("\n", "\r\n"), (rows, separator, end) => {
      const text = rows.map((cells) => cells.map(quoted).join(separator)).join(end) + end;
      expect(splitRecords(text, separator)).toEqual(rows);
    }),
  );
});

test("a last record that may be cut is left out", () => {
  expect(splitRecords("a,b\n1,2", ",", { isWhole: false })).toEqual([["a", "b"]]);
  expect(splitRecords("a,b\n1,2", ",")).toEqual([
    ["a", "b"],
    ["1", "2"],
  ]);
});

test("an empty last cell is a cell", () => {
  expect(splitRecords("a,\n1,", ",")).toEqual([
    ["a", ""],
    ["1", ""],
  ]);
});

test.each([
  ["time,roll\n", ","],
  ["time;roll\n1,5;2,5\n", ";"],
  ["time\troll, left\n", "\t"],
  ['"a,b,c";d\n1;2\n', ";"],
  ["only\n", ","],
])("sniffSeparator finds the separator of %j", (text, separator) => {
  expect(sniffSeparator(text, true)).toBe(separator);
});

test.each([
  ["cells with commas", [["1,5", "2"]], ";", ","],
  ["cells with points", [["1.5", "2"]], ";", "."],
  ["commas as separator", [["1", "2"]], ",", "."],
  ["commas and points together", [["1,5", "2.5"]], ";", "."],
  ["what could all be thousands", [["1,250", "2,500"]], "\t", "."],
  ["thousands that one cell shows to be none", [["1,250", "0,004"]], "\t", ","],
])("sniffDecimal with %s", (_, records, separator, decimal) => {
  expect(sniffDecimal(records, separator)).toBe(decimal);
});
