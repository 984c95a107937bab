import { expect, test } from "vitest";
import type { Finding } from "../../src/findings/index.ts";
import { nearestNotes } from "../../src/report/nearest-notes.ts";

const authority = (id: string, least: number) =>
  ({ id, kind: "authority", severity: "note", measures: { least: { value: least, unit: "1" } } }) as unknown as Finding;

const chosen = (...notes: Finding[]) => nearestNotes(notes).map(({ id }) => id);

test("of the notes of one kind the nearest to trouble is chosen", () => {
  expect(chosen(authority("roll", 0.7), authority("pitch", 0.6), authority("yaw", 0.8))).toEqual(["pitch"]);
});

test("of notes that only the last digit tells apart the first stays", () => {
  expect(chosen(authority("roll", 0.6 + 1e-15), authority("pitch", 0.6), authority("yaw", 0.6 - 1e-15))).toEqual([
    "roll",
  ]);
});

test("a note without its measure gives way to one that has it", () => {
  const without = { ...authority("roll", 0), measures: {} } as Finding;
  expect(chosen(without, authority("pitch", 0.9))).toEqual(["pitch"]);
});
