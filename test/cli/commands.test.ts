import { execFileSync } from "node:child_process";
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { diagnosisSchema } from "../../src/index.ts";
import { temporaryFolder } from "../support/index.ts";
import { runFettle, sample } from "./run-fettle.ts";

const folder = temporaryFolder();
const flight = sample("long-boom/flight");
const files = [`${flight}.csv.gz`, "--channels", `${flight}.channels.yaml`, "--aircraft", `${flight}.aircraft.yaml`];

describe("diagnose", () => {
  test("a summary that fits one screen, a page and a diagnosis that fits its schema", () => {
    const out = folder.path("boom");
    const { status, out: text } = runFettle(["diagnose", ...files, "--out", out], { env: { NO_COLOR: "1" } });
    expect(status).toBe(0);
    expect(text.split("\n").length).toBeLessThanOrEqual(25);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: escape sequences are what must not be there
    expect(text).not.toMatch(/\u001b/);
    expect(text).toContain(join(out, "report.html"));
    const diagnosis = JSON.parse(readFileSync(join(out, "diagnosis.json"), "utf8"));
    expect(diagnosisSchema.safeParse(diagnosis).success).toBe(true);
    expect(diagnosis.run.channels.sha256).toMatch(/^[0-9a-f]{64}$/);
    expect(readFileSync(join(out, "report.html"), "utf8")).toMatch(/^<!doctype html>/);
  });

  test("all formats are written where the contract says", () => {
    const out = folder.path("all");
    const { status } = runFettle([
      "diagnose",
      ...files,
      "--out",
      out,
      "--from",
      "250",
      "--to",
      "270",
      "--format",
      "html,json,text,svg,png,vl,ticket",
    ]);
    expect(status).toBe(0);
    for (const name of ["report.html", "diagnosis.json", "report.txt", "ticket.zip", "ticket/ticket.md"]) {
      expect(existsSync(join(out, name)), name).toBe(true);
    }
    for (const ending of ["svg", "png", "vl.json"]) {
      expect(existsSync(join(out, `charts/motor-commands.${ending}`)), ending).toBe(true);
    }
  });

  test("--fail-on gives status 1 where a finding reaches the level", () => {
    const out = folder.path("fail");
    expect(runFettle(["diagnose", ...files, "--out", out, "--fail-on", "caution"]).status).toBe(1);
  });

  test("a log as the only argument is diagnosed", () => {
    const { status, out } = runFettle([`${sample("gusty-day/flight")}.csv.gz`, "--out", folder.path("only")]);
    expect(status).toBe(0);
    expect(out).toContain("Report:");
  });
});

describe("channels", () => {
  test("lists a log whose names say nothing, and writes a map to fill in", () => {
    const log = folder.write("mute.csv", "a1,b7\n1,2\n3,4\n5,9\n");
    const map = folder.path("mute.channels.yaml");
    const { status, out } = runFettle(["channels", log, "--write", map]);
    expect(status).toBe(0);
    expect(out).toMatch(/^a1 .* 1 +5\s*$/m);
    expect(out).toMatch(/^b7 .* 2 +9\s*$/m);
    expect(out).toMatch(/3 rows; no column is named for what it is/);
    expect(out).toMatch(/To confirm: Which column is the time/);
    expect(readFileSync(map, "utf8")).toMatch(/channels: \{\}[\s\S]*# {3}a1\n# {3}b7/);
  });

  test("shows every column with its channel, and writes a map that reads back to the same channels", () => {
    const map = folder.path("written.channels.yaml");
    const { status, out } = runFettle(["channels", `${flight}.csv.gz`, "--write", map]);
    expect(status).toBe(0);
    expect(out).toMatch(/motor_4_us +motor\.4\.command +us/);
    const again = runFettle(["channels", `${flight}.csv.gz`, "--channels", map]);
    expect(again.status).toBe(0);
    expect(again.out).toMatch(/motor_4_us +motor\.4\.command +us +100 %/);
  });
});

describe("simulate", () => {
  test("lists what is built in", () => {
    const { status, out } = runFettle(["simulate", "--list"]);
    expect([status, out]).toEqual([0, expect.stringMatching(/^short-boom .*\nlong-boom /)]);
  });

  test("writes a flight that can be diagnosed as printed", () => {
    const out = folder.path("hover");
    expect(runFettle(["simulate", "hover-check", "--out", out]).status).toBe(0);
    const made = join(out, "flight");
    const words = [`${made}.csv`, "--channels", `${made}.channels.yaml`, "--aircraft", `${made}.aircraft.yaml`];
    expect(runFettle(["diagnose", ...words]).status).toBe(0);
    expect(existsSync(join(`${made}.csv-fettle`, "report.html"))).toBe(true);
  });

  test("an unknown name is answered with those there are", () => {
    const { status, err } = runFettle(["simulate", "nonesuch"]);
    expect([status, err]).toEqual([2, expect.stringMatching(/nonesuch.*short-boom/)]);
  });
});

describe("help", () => {
  test("--help names every command, and each command's help has examples", () => {
    const { status, out } = runFettle(["--help"]);
    expect(status).toBe(0);
    for (const command of ["diagnose", "channels", "simulate", "explain", "completion"]) {
      expect(out).toContain(command);
      expect(runFettle([command, "--help"]).out).toMatch(/Examples?:/);
    }
  });

  test("completion makes bash offer commands, options, listed values, and file names where nothing is listed", () => {
    const script = folder.write("complete.bash", runFettle(["completion", "bash"]).out);
    const offered = (...words: string[]) => {
      const ask = `source '${script}'; COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1)); _fettle; printf '%s\\n' "\${COMPREPLY[@]}"`;
      return execFileSync("bash", ["-c", ask, "bash", "fettle", ...words], { encoding: "utf8" })
        .trim()
        .split("\n");
    };
    expect(offered("diag")).toEqual(["diagnose"]);
    expect(offered("diagnose", "--fo")).toEqual(["--format"]);
    expect(offered("diagnose", "flight.csv", "--fail-on", "")).toEqual(["note", "advisory", "caution", "warning"]);
    expect(offered("explain", "motor-f")).toEqual(["motor-floor"]);
    // Nothing offered: `complete -o default` then completes file names.
    expect(offered("diagnose", "fli")).toEqual([""]);
    expect(offered("diagnose", "flight.csv", "--channels", "")).toEqual([""]);
  });

  test("explain tells meaning, method, limits, sources and cautions", () => {
    const { out } = runFettle(["explain", "motor-saturation"]);
    for (const part of ["What it means", "How it is computed", "What it cannot tell", "Sources", "Cautions"]) {
      expect(out).toContain(part);
    }
  });
});
