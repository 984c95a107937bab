import { expect, test } from "vitest";
import { parseChannelMap } from "../../../src/log/index.ts";
import { messageOf } from "../../support/index.ts";

const MAP = `time: { column: t, unit: ms }
channels:
  rate.roll.measured: { column: p, unit: deg/s }
  rate.roll.setpoint: { column: p set, unit: rad/s, sign: -1, scale: 2, offset: 0.5 }
  motor.12.command: { column: "12", unit: "1" }
  mode: { column: m }
`;

test("a channel map gives each channel its column, unit, sign, scale and offset", () => {
  const map = parseChannelMap(MAP, "f");
  expect(map.time).toEqual({ column: "t", unit: "ms" });
  expect(map.channels.get("rate.roll.measured")).toEqual({ column: "p", unit: "deg/s", sign: 1, scale: 1, offset: 0 });
  expect(map.channels.get("rate.roll.setpoint")).toEqual({
    column: "p set",
    unit: "rad/s",
    sign: -1,
    scale: 2,
    offset: 0.5,
  });
  expect(map.channels.get("motor.12.command")).toMatchObject({ column: "12", unit: "1" });
});

test.each([
  [
    "an unknown unit",
    MAP.replace("deg/s", "degs/s"),
    /f\.yaml:3, key channels\.rate\.roll\.measured\.unit: unknown unit "degs\/s"; did you mean deg\/s\?$/,
  ],
  [
    "a unit that does not fit",
    MAP.replace("deg/s", "m/s"),
    /f\.yaml:3, key .*\.unit: m\/s does not fit rate\.roll\.measured; use rad\/s or deg\/s/,
  ],
  [
    "a unit left out",
    MAP.replace(", unit: deg/s", ""),
    /f\.yaml:3, key channels\.rate\.roll\.measured: states no unit; add unit: rad\/s or/,
  ],
  [
    "an unknown channel",
    MAP.replace("rate.roll.measured", "rate.rol.measured"),
    /f\.yaml:3, key channels\.rate\.rol\.measured: no such channel; did you mean rate\.roll\.measured\?$/,
  ],
  ["a motor 0", MAP.replace("motor.12", "motor.0"), /f\.yaml:5, .*no such channel; /],
  [
    "a time unit that does not fit",
    MAP.replace("ms", "m"),
    /f\.yaml:1, key time\.unit: m does not fit time; use s or ms or us or ns$/,
  ],
  [
    "a wrong sign",
    MAP.replace("sign: -1", "sign: -2"),
    /f\.yaml:4, key channels\.rate\.roll\.setpoint\.sign: sign is 1 or -1; /,
  ],
  ["a scale of nothing", MAP.replace("scale: 2", "scale: 0"), /f\.yaml:4, .*scale: a scale of 0 leaves nothing; /],
  ["an unknown key", MAP.replace("scale: 2", "scales: 2"), /f\.yaml:4, .*scales: /],
  ["a column that YAML reads as a number", MAP.replace('"12"', "12"), /f\.yaml:5, .*column: .*quotes; /],
  [
    "no time",
    MAP.replace(/time:.*\n/, ""),
    /f\.yaml:1, key time: time is \{ column: NAME, unit: s \} or \{ rate: HZ \}; /,
  ],
  ["a channel given twice", `${MAP}  mode: { column: n }\n`, /f\.yaml:7: not valid YAML: /],
  ["broken YAML", MAP.replace("{ column: p,", "{ column: p"), /f\.yaml:\d+: not valid YAML: /],
])("%s is refused with line and key", async (_, text, message) => {
  expect(await messageOf(() => parseChannelMap(text, "f.yaml"))).toMatch(message);
});
