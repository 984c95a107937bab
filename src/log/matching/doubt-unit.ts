import type { ChannelKind } from "../channels/channel-names.ts";
import { conversionOf } from "../channels/units.ts";

/** Sizes, in SI, beyond which a stated unit is more likely wrong than the flight was real. */
const IMPLAUSIBLE: readonly (readonly [kind: (kind: ChannelKind) => boolean, limit: number, why: string])[] = [
  [({ dimension, motor }) => dimension === "angular-rate" && motor === null, 60, "nine turns a second"],
  [({ name }) => /^attitude\.(roll|pitch)/.test(name), 1.05 * Math.PI, "half a turn"],
  [({ name }) => name === "altitude", 10_000, "10 km"],
  [({ dimension }) => dimension === "speed", 150, "150 m/s"],
  [({ dimension }) => dimension === "voltage", 1000, "1000 V"],
  [({ dimension }) => dimension === "share", 1.5, "half as much again as all motors can give"],
];

/** What speaks against a unit, "more than nine turns a second"; null where nothing does. */
export function doubtUnit(kind: ChannelKind, unit: string, reach: number): string | null {
  const conversion = conversionOf(unit, kind.dimension);
  if (conversion === null) return null;
  const size = Math.abs(reach * conversion.factor + conversion.offset);
  const found = IMPLAUSIBLE.find(([applies, limit]) => applies(kind) && size > limit);
  return found === undefined ? null : `more than ${found[2]}`;
}
