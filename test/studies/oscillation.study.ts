// How well oscillations are found, timed and explained, over seeded simulated flights. Prints Markdown tables.
import { test } from "vitest";
import { type OscillationEvidence, oscillation } from "../../src/detect/index.ts";
import { oscillationLevel } from "../../src/findings/kinds/oscillation.ts";
import { quantile } from "../../src/signal/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";
import { drawScenario, STUDY_KINDS, type StudyKind } from "./oscillation-scenarios.ts";

const seeds = Number(process.env.SEEDS ?? 40);
const first = Number(process.env.FIRST ?? 1);
const kinds = (process.env.KINDS?.split(",") as StudyKind[] | undefined) ?? STUDY_KINDS;
const inDetail = process.env.DETAIL !== undefined;

const DRIVER = { loop: "controller", delay: "controller", outside: "external", load: "coupled" } as const;

interface Row {
  readonly kind: StudyKind;
  readonly isVisible: boolean;
  readonly found: OscillationEvidence | undefined;
  readonly onsetError: number | null;
  readonly frequencyError: number | null;
  readonly growth: { readonly truth: number; readonly is: number; readonly isClear: boolean } | null;
}

test("oscillation", () => {
  const rows: Row[] = [];
  const alarms = { healthy: { hours: 0, cautions: 0, advisories: 0 }, asked: { hours: 0, cautions: 0, advisories: 0 } };
  for (const kind of kinds) {
    for (let seed = first; seed < first + seeds; seed++) {
      const { flight, truth } = simulatedFlight(drawScenario(kind, seed));
      const all = oscillation.detect(flight);
      const fault = truth.faults[0];
      if (kind === "healthy" || kind === "asked") {
        const stick = truth.sticks[0];
        const tally = alarms[kind];
        tally.hours += truth.duration / 3600;
        const context = { evidence: all, motorName: String, phaseName: String };
        const levels = all.map((one) => oscillationLevel(one, context));
        tally.cautions += levels.filter((level) => level === "caution" || level === "warning").length;
        tally.advisories += levels.filter((level) => level === "advisory").length;
        if (inDetail) for (const one of all) console.log(kind, seed, oscillationLevel(one, context), detail(one));
        if (kind === "asked")
          rows.push({
            kind,
            isVisible: true,
            found: all.find(({ axis }) => axis === stick?.axis),
            onsetError: null,
            frequencyError: null,
            growth: null,
          });
        continue;
      }
      if (fault === undefined || fault.frequency === null || fault.visible === null) {
        if (inDetail) console.log(kind, seed, "not visible", fault?.amplitude, fault?.calm);
        continue;
      }
      const isLong = (truth.crash ?? truth.duration) - fault.visible > 6 / fault.frequency;
      const found = all.find(({ axis }) => axis === fault.axis);
      if (inDetail)
        console.log(
          kind,
          seed,
          `truth f ${fault.frequency.toFixed(2)} visible ${fault.visible.toFixed(2)} growth ${fault.growth?.toFixed(2)} A ${fault.amplitude?.toFixed(2)} calm ${fault.calm?.toFixed(3)} ${isLong ? "" : "short"} crash ${truth.crash}`,
          found ? detail(found) : "MISSED",
        );
      if (!isLong) continue;
      const growth = found?.measures.growth;
      rows.push({
        kind,
        isVisible: true,
        found,
        onsetError: found ? Math.abs(found.start - fault.visible) / Math.max(1, 3 / fault.frequency) : null,
        frequencyError: found ? Math.abs(found.measures.frequency!.value / fault.frequency - 1) : null,
        growth:
          growth && fault.growth !== null
            ? {
                truth: fault.growth,
                is: growth.value,
                isClear: Math.abs(growth.value) > (3 * (growth.high! - growth.low!)) / 3.92,
              }
            : null,
      });
    }
  }
  report(rows);
  for (const [kind, { hours, cautions, advisories }] of Object.entries(alarms)) {
    if (hours === 0) continue;
    const bound = (poissonUpper(cautions) / hours).toFixed(2);
    console.log(
      `\n${kind}: ${hours.toFixed(2)} h, ${cautions} false cautions or warnings (upper 95 % bound ${bound} an hour), ${advisories} advisories.`,
    );
  }
});

function report(rows: readonly Row[]): void {
  console.log(
    "\n| flights | n | found | onset in time | median frequency error | 95th percentile | growth sign right | driver right | wrong | undetermined |",
  );
  console.log("| --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |");
  for (const kind of kinds) {
    const own = rows.filter((row) => row.kind === kind);
    if (own.length === 0) continue;
    const found = own.filter((row) => row.found !== undefined);
    const errors = Float64Array.from(found.flatMap(({ frequencyError }) => frequencyError ?? []));
    const clear = found.flatMap(({ growth }) => (growth?.isClear ? [growth] : []));
    const wanted = kind === "asked" ? "commanded" : DRIVER[kind as keyof typeof DRIVER];
    const drivers = found.map((row) => row.found!.driver);
    const undecided = drivers.filter((driver) => driver === "undetermined").length;
    const right = drivers.filter((driver) => driver === wanted).length;
    const share = (part: number, whole: number) => (whole === 0 ? "-" : `${((100 * part) / whole).toFixed(0)} %`);
    const within = found.filter(({ onsetError }) => onsetError !== null && onsetError <= 1).length;
    console.log(
      `| ${kind} | ${own.length} | ${share(found.length, own.length)} | ${kind === "asked" ? "-" : share(within, found.length)} | ${errors.length === 0 ? "-" : `${(100 * quantile(errors, 0.5)).toFixed(2)} %`} | ${errors.length === 0 ? "-" : `${(100 * quantile(errors, 0.95)).toFixed(1)} %`} | ${share(clear.filter(({ truth, is }) => truth * is > 0).length, clear.length)} | ${share(right, drivers.length - undecided)} | ${drivers.length - undecided - right} | ${share(undecided, drivers.length)} |`,
    );
  }
}

/** Upper 95 % bound of a Poisson mean after so many events (Garwood 1936), by bisection. */
function poissonUpper(events: number): number {
  let [low, high] = [0, 10 + 3 * events];
  for (let n = 0; n < 60; n++) {
    const middle = (low + high) / 2;
    let [term, sum] = [Math.exp(-middle), 0];
    for (let k = 0; k <= events; k++) {
      sum += term;
      term *= middle / (k + 1);
    }
    if (sum > 0.05) low = middle;
    else high = middle;
  }
  return high;
}

function detail({ axis, start, end, driver, trend, decision, measures, periodicity }: OscillationEvidence): string {
  const { frequency, amplitude, growth, angle, cycles } = measures;
  const { drive, attitudeResponse: a, rateResponse: r } = decision;
  const d = (x: number | undefined) => (x === undefined ? "-" : x.toFixed(2));
  const loop = (x: typeof a) => (x === null ? "-" : `${d(x.gain)}/${d(x.lag)}/${d(x.coherence)}`);
  return `${axis} ${d(start)}-${d(end)} f ${d(frequency!.value)} A ${d(amplitude!.value)} ang ${d(angle!.value)} ${trend} ${d(growth!.value)} cyc ${d(cycles!.value)} per ${d(periodicity)} ${driver} ${decision.loop} ${decision.reason} th ${d(drive?.phase.value)} [${d(drive?.phase.low)} ${d(drive?.phase.high)}] sh ${d(drive?.share?.value)} c ${d(drive?.coherence)} rate ${loop(r)} att ${loop(a)}`;
}
