import { test } from "vitest";
import { type MotorResponseEvidence, motorResponse } from "../../src/detect/index.ts";
import { type RandomGenerator, randomGenerator } from "../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT, type ScenarioInput } from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";

const SEEDS = Number(process.env.TRIALS ?? 40);
const FIRST = Number(process.env.FIRST ?? 1);
const MACHINES = ["small-quad", "hexa", "survey-quad", "octo"] as const;
const LOSS = 0.3;
/** s within which the loss has to be timed */
const IN_TIME = 0.5;

const between = (random: RandomGenerator, low: number, high: number) => low + (high - low) * random.uniform();

const MISSIONS = {
  hover: [
    { do: "aloft", height: 60 },
    { do: "hover", seconds: 20 },
  ],
  legs: [
    { do: "aloft", height: 60 },
    { do: "hover", seconds: 6 },
    { do: "legs", speeds: [5, 9], seconds: 9, heading: 40, turn: 40 },
    { do: "hover", seconds: 8 },
  ],
} satisfies Record<string, ScenarioInput["mission"]>;

/** When the motor fails: in hover with time to settle before and after, or anywhere on the legs and in the turns. */
const STARTS: Record<keyof typeof MISSIONS, [number, number]> = { hover: [9, 13], legs: [12, 42] };

const rotorSpeeds = Array.from({ length: 8 }, (_, i) => `motor.${i + 1}.speed`);

/** What every flight of these missions has in common; draws the strength of the gusts. */
const flownOn = (
  mission: keyof typeof MISSIONS,
  aircraft: ScenarioInput["aircraft"],
  random: RandomGenerator,
  seed: number,
) => ({
  seed,
  step: 0.004,
  controller: { frequency: 250 },
  aircraft,
  air: { gusts: between(random, 2, 12) },
  mission: MISSIONS[mission],
});

test.each(["hover", "legs"] as const)("a motor that loses 30 percent of its thrust, %s: named, and when", (mission) => {
  for (const [mode, omit] of [
    ["with rotor speed", []],
    ["without", rotorSpeeds],
  ] as const) {
    const counts: Record<string, ReturnType<typeof empty>> = {};
    for (let seed = FIRST; seed < FIRST + SEEDS; seed++) {
      const random = randomGenerator(2000 + seed);
      const aircraft = BUILT_IN_AIRCRAFT[MACHINES[Math.floor(random.uniform() * MACHINES.length)]!]!;
      const motor = 1 + Math.floor(random.uniform() * aircraft.motors.length);
      const [earliest, latest] = STARTS[mission];
      const start = between(random, earliest, latest);
      const { flight, truth } = simulatedFlight({
        name: "weak",
        ...flownOn(mission, aircraft, random, seed),
        faults: [{ kind: "weak-motor", motor, start, loss: LOSS }],
        log: { rate: 100, omit: [...omit] },
      });
      const where = truth.phases.find((phase) => start >= phase.start && start < phase.end)?.kind ?? "in between";
      counts[where] ??= empty();
      const count = counts[where];
      const found = (motorResponse.detect(flight) as MotorResponseEvidence[]).filter(
        ({ sign }) => sign === "sudden-loss",
      );
      const right = found.find((one) => one.motor === motor);
      count.flights++;
      if (right !== undefined) {
        count.named++;
        const late = Math.abs(right.start - start);
        count.worst = Math.max(count.worst, late);
        if (late <= IN_TIME) count["in time"]++;
        const { low, high } = right.measures.deficit!;
        if (!right.isYawKnown) count["said to look like a load"]++;
        if (low! <= LOSS && high! >= LOSS) count["interval holds"]++;
      }
      count["another motor"] += found.filter((one) => one.motor !== motor).length;
      if (
        process.env.DETAIL !== undefined &&
        (found.length !== 1 || found[0] !== right || Math.abs(found[0]!.start - start) > IN_TIME)
      ) {
        console.log(mode, seed, aircraft.name, where, start.toFixed(1), motor, JSON.stringify(found));
      }
    }
    for (const [where, count] of Object.entries(counts)) console.log(mission, mode, where, JSON.stringify(count));
  }
});

test("the same flights with nothing lost: no motor named", () => {
  let [hours, found] = [0, 0];
  for (let seed = FIRST; seed < FIRST + SEEDS; seed++) {
    const random = randomGenerator(3000 + seed);
    const { flight } = simulatedFlight({
      name: "sound",
      seed,
      step: 0.004,
      controller: { frequency: 250 },
      aircraft: BUILT_IN_AIRCRAFT[MACHINES[seed % MACHINES.length]!]!,
      air: {
        wind: { speed: between(random, 0, 5), from: between(random, 0, 360) },
        gusts: between(random, 2, 14),
      },
      mission: [
        ...MISSIONS.legs,
        { do: "sticks", axis: "pitch", shape: "doublet", degrees: 12, seconds: 4 },
        { do: "sticks", axis: "yaw", shape: "step", degrees: 40, seconds: 4 },
        { do: "hover", seconds: 4 },
      ],
      faults: [{ kind: "cg-offset", x: between(random, -0.02, 0.02), y: between(random, -0.02, 0.02) }],
      log: { rate: 100, omit: rotorSpeeds },
    });
    hours += flight.airborne.reduce((sum, { start, end }) => sum + end - start, 0) / 3600;
    const named = (motorResponse.detect(flight) as MotorResponseEvidence[]).filter(
      ({ sign }) => sign === "sudden-loss",
    );
    found += named.length;
    if (process.env.DETAIL !== undefined && named.length > 0) console.log("not lost", seed, JSON.stringify(named));
  }
  console.log("nothing lost", hours.toFixed(2), "h, named", found);
});

test.each(["hover", "legs"] as const)("a load lifted at a motor's arm, %s: taken for a loss", (mission) => {
  const count = { flights: 0, "taken for a loss": 0, "said to look the same": 0, nothing: 0 };
  for (let seed = FIRST; seed < FIRST + SEEDS; seed++) {
    const random = randomGenerator(4000 + seed);
    const aircraft = BUILT_IN_AIRCRAFT[MACHINES[seed % MACHINES.length]!]!;
    const { x, y } = aircraft.motors[Math.floor(random.uniform() * aircraft.motors.length)]!;
    const reach = between(random, 0.7, 1);
    const mass = between(random, 0.05, 0.2) * aircraft.mass!.value;
    const { flight } = simulatedFlight({
      name: "loaded",
      ...flownOn(mission, aircraft, random, seed),
      faults: [{ kind: "payload", start: between(random, ...STARTS[mission]), mass, x: reach * x, y: reach * y }],
      log: { rate: 100, omit: rotorSpeeds },
    });
    const named = (motorResponse.detect(flight) as MotorResponseEvidence[]).filter(
      ({ sign }) => sign === "sudden-loss",
    );
    count.flights++;
    if (named.length === 0) count.nothing++;
    else if (named.some(({ isYawKnown }) => isYawKnown)) count["taken for a loss"]++;
    else count["said to look the same"]++;
  }
  console.log("a load lifted", mission, JSON.stringify(count));
});

const empty = () => ({
  flights: 0,
  named: 0,
  "in time": 0,
  "interval holds": 0,
  "said to look like a load": 0,
  "another motor": 0,
  worst: 0,
});
