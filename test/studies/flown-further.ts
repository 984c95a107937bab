import {
  commandFraction,
  controlEffectiveness,
  leastThrusts,
  momentRoom,
  thrustRanges,
  thrustShare,
} from "../../src/aircraft/index.ts";
import { type HeadroomForecast, type MotorHeadroomEvidence, motorHeadroom, SPENT } from "../../src/detect/index.ts";
import { mean, quantile, type RandomGenerator, randomGenerator } from "../../src/signal/index.ts";
import {
  BUILT_IN_AIRCRAFT,
  defineScenario,
  type ScenarioInput,
  simulate,
  simulatedSeries,
} from "../../src/simulate/index.ts";
import { simulatedFlight } from "../detect/simulated-flight.ts";

const MACHINES = ["small-quad", "survey-quad", "hexa", "octo"] as const;
const GRAVITY = 9.80665;
/** Flown up to this much faster than the fastest step, beyond the range of a forecast. */
const FURTHEST = 1.6;
const SLOWEST = 0.7;
const STEP = 0.06;
/** rad/s rms of the pitch rate */
const SWINGING = 0.5;
/** Less thrust left than this share is none, as the forecast has it. */
export const AT_LIMIT = SPENT;
/** of the speed asked for */
const BEHIND = 0.9;

/** What was foretold from speed steps, and the speed over ground at which a further leg met that motor's limit. */
export interface FlownFurther {
  /** the soonest limit among the motors, as a reader takes it; null where nothing is foretold */
  readonly forecast: HeadroomForecast | null;
  /** m/s; null where that motor stayed off that limit on all further legs */
  readonly met: number | null;
  /** whether the aircraft swung in pitch on that leg: then its loop gave out before the motor did */
  readonly swung: boolean;
  /** of every motor, from which the forecast is the soonest */
  readonly trends: readonly { readonly motor: number; readonly trend: MotorHeadroomEvidence["trend"] }[];
}

/**
 * Flies an aircraft out and back in speed steps and forecasts; then flies the same aircraft, with the battery as it was
 * in the fastest step and other gusts of the same strength, at other speeds, at speeds around the forecast, until the speed
 * is bracketed from which the 99th (or 1st) percentile of the motor's command comes to its limit on the way that
 * the forecast names.
 */
export function flyFurther(seed: number): FlownFurther {
  const random = randomGenerator(7000 + seed);
  const { craft, fastest } = drawCraft(random, seed);
  const shares = random.uniform() < 0.5 ? [0.4, 0.7, 1] : [0.3, 0.55, 0.8, 1];
  const heading = between(random, 0, 360);
  const legs = (speeds: number[], acceleration: number) =>
    ({ do: "legs", speeds, seconds: 12, heading, acceleration, turn: 90, spacing: 0 }) as const;
  const { flight } = simulatedFlight({
    ...craft,
    mission: [
      { do: "aloft", height: 60 },
      { do: "hover", seconds: 15 },
      legs(
        shares.map((share) => share * fastest),
        1.5,
      ),
      { do: "hover", seconds: 15 },
    ],
  });
  const trends = motorHeadroom.detect(flight).map(({ motor, trend }) => ({ motor, trend }));
  const told = trends
    .flatMap(({ motor, trend }) => (trend.forecast === null ? [] : [{ forecast: trend.forecast, motor }]))
    .sort((a, b) => a.forecast.speed - b.forecast.speed)[0];
  if (told === undefined) return { forecast: null, met: null, swung: false, trends };
  const { forecast, motor } = told;
  const fastLegs = flight.phases.filter(({ speed }) => (speed ?? 0) >= 0.9 * forecast.flown);
  const battery = batteryIn(flight.log.channels.get("battery.voltage")!.series, fastLegs);
  const leg = (speed: number): Leg => {
    const { truth, log } = simulate(
      defineScenario({
        ...craft,
        battery: { ...craft.battery, ...battery },
        seed: 500_000 + seed,
        mission: [{ do: "aloft", height: 60 }, { do: "hover", seconds: 2 }, legs([speed], 2.5)],
      }),
    );
    const { start, end } = truth.phases.filter(({ kind }) => kind === "cruise")[forecast.way === -1 ? 1 : 0]!;
    const series = simulatedSeries(log);
    const during = (name: string) => {
      const { time, values } = series.get(name)!;
      return values.filter((_, i) => time[i]! >= start && time[i]! < end);
    };
    const { command } = craft.aircraft;
    const commands = during(`motor.${motor}.command`);
    const rates = during("rate.pitch.measured");
    const share = (value: number) => thrustShare(craft.aircraft.thrust, commandFraction(command, value));
    const leftOver =
      forecast.limit === "ceiling"
        ? 1 - share(quantile(commands, 0.99))
        : share(quantile(commands, 0.01)) - share(command.idle);
    const meets = leftOver < AT_LIMIT;
    const isSwinging = Math.sqrt(mean(rates.map((rate) => rate * rate))) > SWINGING;
    const flown = quantile(during("speed.ground"), 0.5);
    return { asked: speed, flown, meets, isBeyond: meets || isSwinging || flown < BEHIND * speed };
  };
  // From the forecast up or down to the next leg on the other side of the limit, then between the two. A leg that
  // swings or falls behind the speed asked for is beyond it, whatever the motor shows there.
  const step = STEP * fastest;
  // Multiples of the step, so that what is met does not hang on where the forecast lies.
  let asked = Math.round(forecast.speed / step) * step;
  let inside: Leg | null = null;
  let beyond: Leg | null = null;
  while (inside === null || beyond === null) {
    if (asked < SLOWEST * fastest || asked > FURTHEST * fastest) break;
    const tried = leg(asked);
    if (tried.isBeyond) beyond = tried;
    else inside = tried;
    asked += tried.isBeyond ? -step : step;
  }
  if (beyond === null) return { forecast, met: null, swung: false, trends };
  if (inside === null) return { forecast, met: beyond.flown, swung: !beyond.meets, trends };
  const middle = leg((inside.asked + beyond.asked) / 2);
  if (middle.isBeyond) beyond = middle;
  else inside = middle;
  return { forecast, met: inside.flown + (beyond.asked - inside.asked) / 2, swung: !beyond.meets, trends };
}

interface Leg {
  /** m/s */
  readonly asked: number;
  readonly flown: number;
  readonly meets: boolean;
  readonly isBeyond: boolean;
}

/** A battery that keeps the mean voltage of these spans: no charge is used up, and no resistance lowers it. */
function batteryIn(
  voltage: { time: Float64Array; values: Float64Array },
  spans: readonly { start: number; end: number }[],
) {
  const kept = voltage.values.filter((_, i) =>
    spans.some(({ start, end }) => voltage.time[i]! >= start && voltage.time[i]! <= end),
  );
  const volts = mean(kept);
  return { full: volts, empty: 0.99 * volts, capacity: 1e6, resistance: 0 };
}

/** An aircraft on which the air turns harder the faster it flies, and the fastest speed step to fly with it. */
function drawCraft(random: RandomGenerator, seed: number) {
  const standard = BUILT_IN_AIRCRAFT[MACHINES[Math.floor(random.uniform() * MACHINES.length)]!]!;
  const weight = standard.mass!.value * GRAVITY;
  // Half of them are pushed nose up by the air until motors run out; half are loaded heavily and pushed a little.
  const isPushed = random.uniform() < 0.5;
  const ratio = isPushed ? between(random, 1.8, 3.6) : between(random, 1.35, 1.7);
  const most = (ratio * weight) / standard.motors.length;
  const aircraft = { ...standard, thrust: { ...standard.thrust, max: most } };
  const effectiveness = controlEffectiveness(aircraft);
  const hover = leastThrusts(effectiveness, [weight, 0, 0, 0]);
  const room = momentRoom(effectiveness, thrustRanges(aircraft, effectiveness));
  const way = isPushed || random.uniform() < 0.5 ? 1 : -1;
  // The moment takes up what hover leaves at about this speed; drag, tilt and gusts move it.
  const limit = between(random, 8, 16);
  const size = ((isPushed ? 1 : 0.25) * way * room.left("pitch", way === 1 ? -1 : 1, hover)) / limit ** 2;
  const full = 4.2 * (standard.mass!.value < 3 ? 4 : standard.mass!.value < 8 ? 6 : 12);
  const craft = {
    name: "further",
    seed,
    step: 0.004,
    aircraft,
    battery: { nominal: 0.93 * full, full },
    controller: { frequency: 250, limit: { roll: 1, pitch: 1, yaw: 1 }, windup: "hold" },
    body: { pitching: { moment: size, slope: Math.abs(size) * between(random, 0, 0.05) } },
    air: { wind: { speed: between(random, 0, 2.5), from: between(random, 0, 360) }, gusts: between(random, 2, 8) },
    faults: [{ kind: "cg-offset", x: between(random, -0.015, 0.015), y: between(random, -0.015, 0.015) }],
    log: { rate: 50, every: { motors: 1, navigation: 5 } },
  } satisfies Partial<ScenarioInput>;
  return { craft, fastest: between(random, 0.55, 0.85) * limit };
}

const between = (random: RandomGenerator, low: number, high: number) => low + (high - low) * random.uniform();
