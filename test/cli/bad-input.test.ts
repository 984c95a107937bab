import { existsSync, readdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { gzipSync } from "node:zlib";
import { describe, expect, test } from "vitest";
import { csv, numbers, temporaryFolder } from "../support/index.ts";
import { runFettle } from "./run-fettle.ts";

const folder = temporaryFolder();
const n = 2000;
const time = numbers(n, (i) => i / 100);
const wave = numbers(n, (i) => Math.sin(i / 30));
const plain = {
  time_s: time,
  roll_rate_rad_s: wave,
  ...Object.fromEntries([1, 2, 3, 4].map((m) => [`motor_${m}_us`, numbers(n, () => 1500)])),
};
const good = folder.write("good.csv", csv(plain));
const map = (columns: string) => `time: { column: time_s, unit: s }\nchannels:\n${columns}`;
const roll = "  rate.roll.measured: { column: roll_rate_rad_s, unit: rad/s }\n";
const TRI = `name: tri
motors:
  - { x: 0.3, y: 0.0, spin: cw }
  - { x: -0.3, y: 0.3, spin: ccw }
  - { x: -0.3, y: -0.3, spin: cw }
command: { unit: us, min: 1050, max: 1950 }
`;

const cases: readonly (readonly [string, () => string[], RegExp])[] = [
  ["no such file", () => [folder.path("absent.csv")], /absent\.csv.*no such file/],
  ["a folder", () => [dirname(good)], /is a (folder|directory)/],
  ["an empty file", () => [folder.write("empty.csv", "")], /empty\.csv.*empty/],
  ["a header only", () => [folder.write("header.csv", "time_s,roll_rate_rad_s\n")], /header\.csv.*no rows/],
  ["one row", () => [folder.write("one.csv", "time_s,roll_rate_rad_s\n0,1\n")], /one\.csv.*one row/],
  [
    "no time",
    () => [folder.write("no-time.csv", csv({ roll_rate_rad_s: wave, pitch_rate_rad_s: wave }))],
    /no-time\.csv.*time/,
  ],
  [
    "text in a number column",
    () => {
      const cells: (string | number)[] = [...wave];
      cells[41] = "n/a?";
      return [folder.write("text.csv", csv({ time_s: time, roll_rate_rad_s: cells }))];
    },
    /text\.csv:43.*roll_rate_rad_s.*n\/a\?/,
  ],
  [
    "a map that names a missing column",
    () => [
      good,
      "--channels",
      folder.write("missing.yaml", map("  rate.roll.measured: { column: rol_rate, unit: rad/s }\n")),
    ],
    /missing\.yaml:3, key channels\.rate\.roll\.measured.*rol_rate/,
  ],
  [
    "an unknown unit",
    () => [good, "--channels", folder.write("unit.yaml", map(roll.replace("rad/s", "furlong")))],
    /unit\.yaml:3, key channels\.rate\.roll\.measured.*furlong/,
  ],
  [
    "a unit that does not fit",
    () => [good, "--channels", folder.write("volts.yaml", map(roll.replace("rad/s", "V")))],
    /volts\.yaml:3, key channels\.rate\.roll\.measured.*V/,
  ],
  [
    "an unknown channel",
    () => [
      good,
      "--channels",
      folder.write("channel.yaml", map(roll.replace("rate.roll.measured", "rate.rol.measured"))),
    ],
    /channel\.yaml:3.*rate\.rol\.measured.*rate\.roll\.measured/,
  ],
  [
    "broken YAML",
    () => [good, "--channels", folder.write("broken.yaml", "time: { column: [\nchannels:")],
    /broken\.yaml:\d+/,
  ],
  [
    "a motor count that does not fit",
    () => [good, "--aircraft", folder.write("tri.yaml", TRI)],
    /motor\.4\.command but the aircraft has 3 motors/,
  ],
  [
    "a map and an aircraft file with different units of the motor commands",
    () => [
      good,
      "--channels",
      folder.write(
        "shares.yaml",
        map([1, 2, 3].map((m) => `  motor.${m}.command: { column: motor_${m}_us, unit: "1" }\n`).join("")),
      ),
      "--aircraft",
      folder.write("tri.yaml", TRI),
    ],
    /shares\.yaml, key channels\.motor\.1\.command\.unit: is "1", but command\.unit of the aircraft file is us/,
  ],
  ["a truncated gzip", () => [folder.write("cut.csv.gz", gzipSync(csv(plain)).subarray(0, 5000))], /cut\.csv\.gz/],
  ["no gzip at all", () => [folder.write("fake.csv.gz", csv(plain))], /fake\.csv\.gz/],
  ["no Parquet at all", () => [folder.write("fake.parquet", csv(plain))], /fake\.parquet/],
  ["an unknown ending", () => [folder.write("log.bin", "x")], /log\.bin/],
  [
    "a mapped column without any value",
    () => [
      folder.write("hollow.csv", csv({ time_s: time, roll_rate_rad_s: wave.length ? Array(n).fill("") : [] })),
      "--channels",
      folder.write("hollow.yaml", map(roll)),
    ],
    /roll_rate_rad_s.*no number at all/,
  ],
  ["an unknown format", () => [good, "--format", "pdf"], /pdf.*none of html, json/],
  ["an unknown level", () => [good, "--fail-on", "panic"], /panic.*none of note, advisory/],
  ["a time that is none", () => [good, "--from", "soon"], /soon.*not a number of seconds/],
  [
    "false alarms that are no rate",
    () => [good, "--false-alarms", "0"],
    /"0" is not a number an hour from 0.001 to 100/,
  ],
  ["a stretch outside the log", () => [good, "--from", "900"], /outside the log/],
  ["a misspelt option", () => [good, "--aircarft", "x"], /--aircarft.*--aircraft/],
  ["an output folder that is a file", () => [good, "--out", good], /is a file, not a folder/],
];

describe("bad input ends with status 2 and one line, and writes nothing", () => {
  test.each(cases)("%s", (_, words, message) => {
    const given = words();
    const out = folder.path("out");
    const { status, err } = runFettle(["diagnose", ...given, ...(given.includes("--out") ? [] : ["--out", out])]);
    expect(err).toMatch(message);
    expect(err.trimEnd()).not.toContain("\n");
    expect(err).not.toMatch(/\bat .*:\d+:\d+/);
    expect(status).toBe(2);
    expect(existsSync(out)).toBe(false);
  });

  test("an unknown command is answered with the nearest", () => {
    const { status, err } = runFettle(["diagnos", "x"]);
    expect([status, err]).toEqual([2, expect.stringMatching(/diagnos.*diagnose/)]);
  });

  test("an unknown kind to explain is answered with those there are", () => {
    const { status, err } = runFettle(["explain", "gremlins"]);
    expect([status, err]).toEqual([2, expect.stringMatching(/gremlins.*motor-floor/)]);
  });
});

test("nothing temporary is left beside the report", () => {
  const out = folder.path("kept");
  expect(runFettle(["diagnose", good, "--out", out, "--format", "html,json,text"]).status).toBe(0);
  expect(readdirSync(out).sort()).toEqual(["diagnosis.json", "report.html", "report.txt"]);
  expect(existsSync(join(out, "charts"))).toBe(false);
});
