import { test } from "vitest";
import { type Evidence, integratorWindup, motorResponse, sensorClipping } from "../../src/detect/index.ts";
import { type RandomGenerator, randomGenerator } from "../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT, type ScenarioInput } from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";
import { drainFurther } from "./drained-further.ts";
import { flyFurther } from "./flown-further.ts";

const SEEDS = Number(process.env.TRIALS ?? 40);
/** The first seed; others were used while settling the detectors. */
const FIRST = Number(process.env.FIRST ?? 1);
const AXES = ["roll", "pitch", "yaw"] as const;
const MACHINES = ["small-quad", "hexa", "survey-quad", "octo"] as const;

const between = (random: RandomGenerator, low: number, high: number) => low + (high - low) * random.uniform();
const choice = <T>(random: RandomGenerator, from: readonly T[]): T => from[Math.floor(random.uniform() * from.length)]!;

const integrators = AXES.map((axis) => `rate.${axis}.integrator`);
const outputs = AXES.map((axis) => `rate.${axis}.output`);

test("integrator wind-up: how much of it is found", () => {
  // Half of the flights with the integrator logged, a quarter each with what it is rebuilt from.
  const modes = [
    { mode: "logged", omit: [], seeds: (seed: number) => seed % 2 === 0 },
    { mode: "rebuilt from the output", omit: integrators, seeds: (seed: number) => seed % 4 === 1 },
    { mode: "rebuilt from the motors", omit: [...integrators, ...outputs], seeds: (seed: number) => seed % 4 === 3 },
  ];
  for (const { mode, omit, seeds } of modes) {
    const count = { true: 0, found: 0, "found, but other": 0, "flights found": 0, flights: 0 };
    const evidence: Record<string, number> = {};
    for (let seed = FIRST; seed < FIRST + SEEDS; seed++) {
      if (!seeds(seed)) continue;
      const random = randomGenerator(seed);
      const start = between(random, 12, 15);
      const { flight, truth } = simulatedFlight({
        name: "wound",
        seed,
        aircraft: BUILT_IN_AIRCRAFT[choice(random, MACHINES)]!,
        air: { gusts: between(random, 2, 10) },
        mission: [
          { do: "aloft", height: 60 },
          { do: "hover", seconds: 24 },
        ],
        faults: [
          { kind: "cg-offset", x: between(random, -0.01, 0.01), y: between(random, -0.01, 0.01) },
          {
            kind: "wind-up",
            axis: choice(random, AXES),
            start,
            end: start + between(random, 0.7, 2),
            share: choice(random, [-1, 1]) * between(random, 1, 1.4),
          },
        ],
        log: { omit: [...omit] },
      });
      const found = integratorWindup.detect(flight);
      const stretches = found.flatMap(({ axis, stretches }) => stretches.map((span) => ({ axis, ...span })));
      const meets = (
        a: { axis: string; start: number; end: number },
        b: { axis: string; start: number; end: number },
      ) => a.axis === b.axis && a.start < b.end + 0.5 && b.start < a.end + 0.5;
      count.flights++;
      // A wind-up that flickers is one event: truth stretches nearer than a second are counted together.
      const events = truth.windups.filter(
        (one, i) => !truth.windups.slice(0, i).some((last) => last.axis === one.axis && one.start - last.end < 1),
      );
      count.true += events.length;
      const met = events.filter((event) => stretches.some((stretch) => meets(event, stretch))).length;
      count.found += met;
      if (met > 0) count["flights found"]++;
      if (met < events.length) console.log(mode, seed, "missed", JSON.stringify(events));
      for (const one of found) evidence[one.evidence] = (evidence[one.evidence] ?? 0) + 1;
      count["found, but other"] += found.filter(
        ({ axis, stretches }) =>
          !stretches.some((span) => truth.windups.some((event) => meets(event, { axis, ...span }))),
      ).length;
    }
    console.log(mode, JSON.stringify(count), JSON.stringify(evidence));
  }
});

/** A flight with nothing wrong but a trim: hover, sticks, legs in some wind, never the same twice. */
function healthy(seed: number): ScenarioInput {
  const random = randomGenerator(1000 + seed);
  return {
    name: "healthy",
    seed,
    aircraft: BUILT_IN_AIRCRAFT[MACHINES[seed % MACHINES.length]!]!,
    air: { wind: { speed: between(random, 0, 6), from: between(random, 0, 360) }, gusts: between(random, 2, 16) },
    mission: [
      { do: "aloft", height: 60 },
      { do: "hover", seconds: 8 },
      {
        do: "sticks",
        axis: choice(random, AXES),
        shape: choice(random, ["step", "doublet", "sweep"] as const),
        degrees: 12,
        seconds: 4,
      },
      { do: "legs", speeds: [5, 10], seconds: 9, heading: 40, turn: 40 },
      { do: "hover", seconds: 5 },
    ],
    faults: [
      { kind: "cg-offset", x: between(random, -0.02, 0.02), y: between(random, -0.02, 0.02) },
      { kind: "motor-tilt", motor: 1, degrees: between(random, -2, 2) },
    ],
  };
}

test("healthy flights: what is found that is not there", () => {
  const modes = {
    "all logged": [],
    "no integrators": integrators,
    "no integrators or outputs": [...integrators, ...outputs],
  };
  for (const [mode, omit] of Object.entries(modes)) {
    let hours = 0;
    const false_: Record<string, number> = {};
    for (let seed = 1; seed <= SEEDS / 2; seed++) {
      const { flight, truth } = simulatedFlight({ ...healthy(seed), log: { omit: [...omit] } });
      hours += flight.airborne.reduce((sum, { start, end }) => sum + end - start, 0) / 3600;
      const found: Evidence[] = [integratorWindup, motorResponse, sensorClipping].flatMap(
        (detector) => detector.detect(flight) as Evidence[],
      );
      for (const one of found) {
        if (one.kind === "integrator-windup" && truth.windups.length > 0) continue;
        const name = [one.kind, "sign" in one ? one.sign : ""].join(" ");
        false_[name] = (false_[name] ?? 0) + 1;
        console.log(
          mode,
          seed,
          name,
          one.axis ?? one.motor ?? one.channel,
          one.start.toFixed(1),
          JSON.stringify(one.measures),
        );
      }
    }
    console.log(mode, hours.toFixed(2), "h", JSON.stringify(false_));
  }
});

/** Hours of healthy flight, as much in each way of logging; half a minute of computing each. */
const HOURS = Number(process.env.HOURS ?? 0.5);

test("healthy hours: wind-up that is not there", () => {
  const modes = {
    logged: [],
    "rebuilt from the output": integrators,
    "rebuilt from the motors": [...integrators, ...outputs],
  };
  const hours = Object.fromEntries(Object.keys(modes).map((mode) => [mode, 0]));
  const found = Object.fromEntries(Object.keys(modes).map((mode) => [mode, 0]));
  let wound = 0;
  const names = Object.keys(modes) as (keyof typeof modes)[];
  for (let seed = FIRST; Object.values(hours).reduce((sum, one) => sum + one) < HOURS; seed++) {
    const mode = names[seed % names.length]!;
    const { flight, truth } = simulatedFlight({
      ...healthy(seed),
      step: 0.004,
      controller: { frequency: 250 },
      log: { rate: 100, omit: [...modes[mode]] },
    });
    hours[mode]! += flight.airborne.reduce((sum, { start, end }) => sum + end - start, 0) / 3600;
    if (truth.windups.length > 0) wound++;
    else found[mode]! += integratorWindup.detect(flight).length;
    if (seed % 20 === 0) console.log("until seed", seed, JSON.stringify(hours), JSON.stringify(found), wound);
  }
  console.log(
    "healthy hours",
    JSON.stringify(hours),
    "found",
    JSON.stringify(found),
    "flights with true wind-up left out",
    wound,
  );
});

test("the speed at which a motor meets its limit: foretold from speed steps, then flown", () => {
  const count = { flights: 0, declined: 0, "loop gave out first": 0, held: 0, sooner: 0, later: 0, open: 0 };
  for (let seed = FIRST; seed < FIRST + SEEDS; seed++) {
    count.flights++;
    const { forecast, met, swung } = flyFurther(seed);
    if (forecast === null) count.declined++;
    else if (swung) count["loop gave out first"]++;
    else {
      if (forecast.high === undefined) count.open++;
      if (met !== null && met < forecast.low) count.sooner++;
      else if ((met ?? Number.POSITIVE_INFINITY) > (forecast.high ?? Number.POSITIVE_INFINITY)) count.later++;
      else count.held++;
    }
    if (seed % 20 === 0) console.log("speed", seed, JSON.stringify(count));
  }
  console.log("speed at the limit", JSON.stringify(count));
});

test("the battery voltage at which a motor meets its ceiling: foretold from a part of a hover, then flown", () => {
  const count = { flights: 0, declined: 0, "never met": 0, held: 0, sooner: 0, later: 0, open: 0 };
  for (let seed = FIRST; seed < FIRST + SEEDS; seed++) {
    count.flights++;
    const { forecast, met } = drainFurther(seed);
    if (forecast === null) count.declined++;
    else if (met === null) count["never met"]++;
    else {
      if (forecast.low === undefined) count.open++;
      if (met > forecast.high) count.sooner++;
      else if (met < (forecast.low ?? 0)) count.later++;
      else count.held++;
    }
  }
  console.log("voltage at the limit", JSON.stringify(count));
});
