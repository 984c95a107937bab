import { channelOf, type Flight } from "../flight/index.ts";
import type { Span } from "../log/index.ts";
import { leastSquares, SignalError, wrapAngle } from "../signal/index.ts";
import { meanOver } from "./mean-over.ts";
import { meanHeading, type Replicate } from "./replicates.ts";

/** How fast a flight went through the air on each of its legs and pieces of hover. */
export interface AirSpeeds {
  /** `logged`: speed through the air is logged; `lean`: from how far the aircraft leaned into the air */
  readonly by: "logged" | "lean";
  /** m/s, mean wind, the way it blows; null where only the speed through the air is known */
  readonly wind: { readonly north: number; readonly east: number; readonly error: number } | null;
  /** m/s of each replicate, in the order given */
  readonly speeds: readonly number[];
}

/** m/s^2 */
const GRAVITY = 9.80665;
/** rad; legs must differ in heading by this much, or a lean of the aircraft itself passes for wind */
const HEADINGS_APART = 1;
const ITERATIONS = 25;

/**
 * Speed through the air of every replicate. Where it is not logged it follows from the lean: a multirotor that holds its
 * speed leans so far that its thrust balances the drag, and drag grows with the speed through the air. Over all legs
 * and hovers, lean as an acceleration = (k1 + k2 a) a with a = velocity over ground less the wind, plus a constant lean
 * in body axes (a tilted sensor, a bent arm); k1, k2, wind and constant lean are fitted by least squares.
 *
 * @returns null where the log lacks what is needed or the legs do not tell the wind from the aircraft's own lean
 * @see Neumann and Bartholmai 2015, Sensors and Actuators A 235:300-310 (wind from the lean of a multirotor)
 */
export function airSpeeds(flight: Flight, replicates: readonly Replicate[]): AirSpeeds | null {
  const logged = channelOf(flight, "speed.air");
  if (logged !== undefined) {
    const speeds = replicates.map((span) => meanOver([logged], span, (value) => value!));
    if (speeds.every((speed) => speed !== null)) return { by: "logged", wind: null, speeds: speeds as number[] };
  }
  const looks = replicates.map((replicate) => lookOf(flight, replicate));
  if (looks.length < 5 || looks.includes(null) || !turnsAround(looks as Look[])) return null;
  const wind = fitWind(looks as Look[]);
  if (wind === null) return null;
  return {
    by: "lean",
    wind,
    speeds: (looks as Look[]).map(({ north, east }) => Math.hypot(north - wind.north, east - wind.east)),
  };
}

/** One replicate as the fit sees it: velocity over ground, and the horizontal push of its lean, m/s and m/s^2. */
interface Look {
  readonly north: number;
  readonly east: number;
  readonly pushNorth: number;
  readonly pushEast: number;
  readonly heading: number;
}

function lookOf(flight: Flight, replicate: Replicate): Look | null {
  const { ground } = replicate;
  const heading = meanHeading(flight, replicate);
  const lean = meanLean(flight, replicate);
  if (ground === null || ground.north === null || heading === null || lean === null) return null;
  const [c, s] = [Math.cos(heading), Math.sin(heading)];
  return {
    north: ground.north,
    east: ground.east!,
    pushNorth: GRAVITY * (c * lean.forward - s * lean.right),
    pushEast: GRAVITY * (s * lean.forward + c * lean.right),
    heading,
  };
}

/** Tangent of the lean forward (nose down) and to the right. */
function meanLean(flight: Flight, span: Span): { forward: number; right: number } | null {
  const [roll, pitch] = [channelOf(flight, "attitude.roll.measured"), channelOf(flight, "attitude.pitch.measured")];
  if (roll === undefined || pitch === undefined) return null;
  const forward = meanOver([pitch], span, (angle) => -Math.tan(angle!));
  const right = meanOver([roll, pitch], span, (phi, theta) => Math.tan(phi!) / Math.cos(theta!));
  return forward === null || right === null ? null : { forward, right };
}

function turnsAround(looks: readonly Look[]): boolean {
  return looks.some(({ heading }) =>
    looks.some((other) => Math.abs(wrapAngle(heading - other.heading)) > HEADINGS_APART),
  );
}

/** Gauss-Newton over [wind north, wind east, k1, k2, own lean forward, own lean right]. */
function fitWind(looks: readonly Look[]): AirSpeeds["wind"] {
  let values = [0, 0, startingDrag(looks), 0, 0, 0];
  const predicted = (p: readonly number[]) =>
    Float64Array.from(
      looks.flatMap(({ north, east, heading }) => {
        const [a, b] = [north - p[0]!, east - p[1]!];
        const drag = p[2]! + p[3]! * Math.hypot(a, b);
        const [c, s] = [Math.cos(heading), Math.sin(heading)];
        return [drag * a + c * p[4]! - s * p[5]!, drag * b + s * p[4]! + c * p[5]!];
      }),
    );
  const seen = Float64Array.from(looks.flatMap(({ pushNorth, pushEast }) => [pushNorth, pushEast]));
  const slopesAt = (p: readonly number[]) => {
    const base = predicted(p);
    return p.map((value, k) => {
      const step = 1e-4 * Math.max(0.01, Math.abs(value));
      const moved = predicted(p.map((other, j) => (j === k ? other + step : other)));
      return base.map((b, i) => (moved[i]! - b) / step);
    });
  };
  try {
    let fit = leastSquares(
      slopesAt(values),
      seen.map((y, i) => y - predicted(values)[i]!),
    );
    for (let n = 0; n < ITERATIONS; n++) {
      const { coefficients } = fit;
      values = values.map((value, k) => value + coefficients[k]!);
      if (!values.every(Number.isFinite)) return null;
      const model = predicted(values);
      fit = leastSquares(
        slopesAt(values),
        seen.map((y, i) => y - model[i]!),
      );
      if (Math.hypot(fit.coefficients[0]!, fit.coefficients[1]!) < 1e-6) break;
    }
    const { data } = fit.covariance;
    const error = Math.sqrt(Math.max(data[0]!, data[7]!));
    const fastest = Math.max(...looks.map(({ north, east }) => Math.hypot(north, east)));
    const [north, east] = values as [number, number];
    // A wind that nobody could have flown in, or that is not known to a fifth of the legs' speed, is none.
    const isKnown =
      values[2]! + values[3]! * fastest > 0 && Math.hypot(north, east) < 1.5 * fastest && error < fastest / 5;
    return isKnown ? { north, east, error } : null;
  } catch (cause) {
    if (cause instanceof SignalError) return null;
    throw cause;
  }
}

/** 1/s, drag over mass by speed, as in still air. */
function startingDrag(looks: readonly Look[]): number {
  const along = looks.reduce(
    (sum, { north, east, pushNorth, pushEast }) => sum + north * pushNorth + east * pushEast,
    0,
  );
  const squares = looks.reduce((sum, { north, east }) => sum + north * north + east * east, 0);
  return squares > 0 ? Math.max(0.01, along / squares) : 0.1;
}
