import { expect, test } from "vitest";
import { CHANNEL_NAMES, channelKindOf, conversionOf, nearestChannelName, unitsOf } from "../../../src/log/index.ts";

test.each([
  ["angle", "deg", 180, Math.PI],
  ["angular-rate", "rpm", 60, 2 * Math.PI],
  ["angular-rate", "Hz", 1, 2 * Math.PI],
  ["length", "ft", 1, 0.3048],
  ["speed", "kt", 1, 1852 / 3600],
  ["speed", "km/h", 36, 10],
  ["acceleration", "g", 1, 9.80665],
  ["temperature", "degF", 32, 0],
  ["time", "ns", 1e9, 1],
  ["share", "%", 50, 0.5],
] as const)("as %s, %s: %d is %d in SI", (dimension, unit, value, expected) => {
  const { factor, offset } = conversionOf(unit, dimension)!;
  expect(value * factor + offset).toBeCloseTo(expected, 9);
});

test("every unit of the contract fits some dimension, and none fits a wrong one", () => {
  const contract =
    "s ms us ns rad deg rad/s deg/s rpm Hz m mm cm ft m/s km/h kt mm/s m/s^2 g V mV A mA W N N*m degC degF % 1";
  const channels = CHANNEL_NAMES.map((name) => channelKindOf(name)!.dimension);
  const known = new Set([...channels, "time" as const].flatMap((dimension) => unitsOf(dimension)));
  expect(contract.split(" ").filter((unit) => !known.has(unit))).toEqual([]);
  expect(conversionOf("rad/s", "angle")).toBeNull();
  expect(conversionOf("constructor", "angle")).toBeNull();
});

test("every channel name is known under itself; a slip of the pen finds its neighbour", () => {
  for (const name of CHANNEL_NAMES) expect(channelKindOf(name)!.name).toBe(name);
  expect(nearestChannelName("atitude.roll.mesured")).toBe("attitude.roll.measured");
  expect(nearestChannelName("banana")).toBeNull();
});
