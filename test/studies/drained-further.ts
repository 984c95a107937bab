import { commandFraction, thrustShare } from "../../src/aircraft/index.ts";
import { motorHeadroom, type VoltageForecast } from "../../src/detect/index.ts";
import type { Series } from "../../src/log/channel.ts";
import { mean, quantile, randomGenerator } from "../../src/signal/index.ts";
import { BUILT_IN_AIRCRAFT } from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";
import { AT_LIMIT } from "./flown-further.ts";

const MACHINES = ["small-quad", "survey-quad", "hexa"] as const;
const GRAVITY = 9.80665;
/** s of hover, and of one piece in which a motor meets its ceiling or does not */
const HOVER = 420;
const PIECE = 15;
/** s from one piece looked at to the next */
const STEP = 1;
/** m/s downwards: the controller keeps some thrust for its moments, so an aircraft sinks before its motors are at their ceiling */
const SINKING = 0.3;

/** What was foretold from the first part of a hover, and the voltage at which thrust ran out later on. */
export interface DrainedFurther {
  readonly forecast: VoltageForecast | null;
  /** V when the first motor had less than 2 % of its thrust left, or the aircraft began to sink; null where it never did */
  readonly met: number | null;
}

/** Hovers on a small battery until nearly empty; forecasts from 50 to 80 % of the time until no thrust is left. */
export function drainFurther(seed: number): DrainedFurther {
  const random = randomGenerator(9000 + seed);
  const between = (low: number, high: number) => low + (high - low) * random.uniform();
  const standard = BUILT_IN_AIRCRAFT[MACHINES[Math.floor(random.uniform() * MACHINES.length)]!]!;
  const weight = standard.mass!.value * GRAVITY;
  const aircraft = {
    ...standard,
    thrust: { ...standard.thrust, max: (between(1.4, 1.75) * weight) / standard.motors.length },
  };
  const cells = standard.mass!.value < 3 ? 4 : standard.mass!.value < 8 ? 6 : 12;
  const { flight } = simulatedFlight({
    name: "drained",
    seed,
    step: 0.004,
    aircraft,
    battery: { capacity: 0.3 * standard.mass!.value * between(0.9, 1.2) * (12 / cells), empty: 3 * cells },
    controller: { frequency: 250 },
    air: { gusts: between(2, 8) },
    faults: [{ kind: "cg-offset", x: between(-0.01, 0.01), y: between(-0.01, 0.01) }],
    mission: [
      { do: "aloft", height: 60 },
      { do: "hover", seconds: HOVER },
    ],
    log: { rate: 50, every: { motors: 1, navigation: 5 } },
  });
  const series = (name: string) => flight.log.channels.get(name)!.series;
  const share = (command: number) => thrustShare(aircraft.thrust, commandFraction(aircraft.command, command));
  const isOut = (start: number) =>
    mean(during(series("velocity.down"), start)) > SINKING ||
    aircraft.motors.some(
      (_, i) => share(quantile(during(series(`motor.${i + 1}.command`), start), 0.99)) > 1 - AT_LIMIT,
    );
  let start = 0;
  while (start + PIECE <= HOVER && !isOut(start)) start += STEP;
  if (start + PIECE > HOVER) return { forecast: null, met: null };
  const met = mean(during(series("battery.voltage"), start));
  const until = between(0.5, 0.8) * start;
  const cut = (spans: typeof flight.phases) =>
    spans.filter((span) => span.start < until).map((span) => ({ ...span, end: Math.min(span.end, until) }));
  const airborne = flight.airborne.map((span) => ({ ...span, end: Math.min(span.end, until) }));
  const told = motorHeadroom
    .detect({ ...flight, airborne, phases: cut(flight.phases) })
    .flatMap(({ trend }) => trend.voltageForecast ?? [])
    .sort((a, b) => b.voltage - a.voltage)[0];
  return { forecast: told ?? null, met };
}

const during = ({ time, values }: Series, start: number) =>
  values.filter((_, i) => time[i]! >= start && time[i]! < start + PIECE);
