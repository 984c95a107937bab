import { expect, test } from "vitest";
import { DARK, LIGHT, type Palette } from "../../src/charts/index.ts";

/** Relative luminance and contrast as WCAG 2 defines them. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light! + 0.05) / (dark! + 0.05);
}

test("contrast agrees with known values: blue on white 5.19, #767676 on white 4.54", () => {
  expect(contrast("#0072b2", "#ffffff")).toBeCloseTo(5.19, 2);
  expect(contrast("#767676", "#ffffff")).toBeCloseTo(4.54, 2);
});

const PALETTES: readonly [string, Palette][] = [
  ["light", LIGHT],
  ["dark", DARK],
];

test.each(PALETTES)("text of the %s palette reaches 4.5 to 1 on its paper", (_, palette) => {
  for (const role of ["ink", "faint", "limit", "warning", "caution", "advisory", "note"] as const) {
    expect(contrast(palette[role], palette.paper), role).toBeGreaterThanOrEqual(4.5);
  }
});

test.each(PALETTES)("lines of the %s palette reach 3 to 1 on its paper", (_, palette) => {
  for (const role of ["response", "setpoint", "third", "fourth"] as const) {
    expect(contrast(palette[role], palette.paper), role).toBeGreaterThanOrEqual(3);
  }
});

test.each(PALETTES)("words on the phases of the %s palette reach 4.5 to 1", (_, palette) => {
  for (const role of ["ground", "climb", "hover", "cruise", "turn", "descent", "unknown"] as const) {
    expect(contrast(palette.ink, palette[role]), role).toBeGreaterThanOrEqual(4.5);
  }
});

test("every role of the light palette has a colour of its own, so that a page can tell roles by colour", () => {
  expect(new Set(Object.values(LIGHT)).size).toBe(Object.keys(LIGHT).length);
  expect(Object.keys(DARK)).toEqual(Object.keys(LIGHT));
});
