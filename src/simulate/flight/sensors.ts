import { butterworth } from "../../signal/index.ts";
import { noiseStream } from "../physics/noise-stream.ts";
import { STATE } from "../physics/rigid-body.ts";
import { GRAVITY, type Setup } from "../scenario/setup.ts";
import type { RotorShaking } from "./rotor-shaking.ts";
import { STREAM } from "./streams.ts";

/** A second-order low-pass that runs sample by sample on `lanes` signals side by side. */
export function runningLowpass(cutoff: number, sampleRate: number, lanes: number) {
  if (cutoff >= 0.45 * sampleRate) return { run: (_lane: number, value: number) => value };
  const [b0, b1, b2, a1, a2] = butterworth(2, cutoff, sampleRate).coefficients as unknown as number[];
  const first = new Float64Array(lanes);
  const second = new Float64Array(lanes);
  return {
    run(lane: number, value: number): number {
      // Transposed direct form: two numbers of memory.
      const result = b0! * value + first[lane]!;
      first[lane] = b1! * value - a1! * result + second[lane]!;
      second[lane] = b2! * value - a2! * result;
      return result;
    },
  };
}

/**
 * Errors that wander slowly: first-order Gauss-Markov processes of unit variance, exact at a fixed interval.
 *
 * @param lag s, time in which an error is forgotten to 37 %
 */
export function wanderer(lanes: number, lag: number, interval: number, seed: number, stream: number) {
  const noise = noiseStream(seed, stream);
  const keep = Math.exp(-interval / lag);
  const drive = Math.sqrt(1 - keep * keep);
  const values = noise.gaussians(lanes);
  return {
    values,
    step(): void {
      for (let k = 0; k < lanes; k++) values[k] = keep * values[k]! + drive * noise.gaussian();
    },
  };
}

/** Gyro and accelerometer: what they feel, shaken by the rotors, noisy, clipped and filtered. */
export function inertialSensors({ scenario }: Setup, shaking: RotorShaking) {
  const { seed, step: dt, sensors } = scenario;
  const gyroNoise = noiseStream(seed, STREAM.gyro);
  const accelerometerNoise = noiseStream(seed, STREAM.accelerometer);
  const gyroFilter = runningLowpass(sensors.gyro.lowpass, 1 / dt, 3);
  const accelerometerFilter = runningLowpass(sensors.gyro.lowpass, 1 / dt, 3);
  // The size of white noise goes with the root of the rate at which it is drawn; it is stated for 1 kHz.
  const noiseScale = Math.sqrt(0.001 / dt);
  const acceleration = new Float64Array(3);
  // A second at rest before the log begins, so that it does not begin with the filters' own start.
  for (let n = 0; n * dt < 1; n++) acceleration[2] = accelerometerFilter.run(2, -GRAVITY);
  return {
    /** m/s^2 */
    acceleration,
    /** renews the rates that the gyro shows; `limit` in rad/s */
    feelRates(state: Float64Array, limit: number, measured: Float64Array): void {
      for (let k = 0; k < 3; k++) {
        const noise = sensors.gyro.noise * noiseScale * gyroNoise.gaussian();
        const raw = state[STATE.rate + k]! + shaking.rate(k) + noise;
        measured[k] = gyroFilter.run(k, Math.max(-limit, Math.min(limit, raw)));
      }
    },
    /** renews `acceleration`; on the ground that is the ground's push alone */
    feelAcceleration(specificForce: Float64Array, isOnGround: boolean): void {
      for (let k = 0; k < 3; k++) {
        const felt = isOnGround ? (k === 2 ? -GRAVITY : 0) : specificForce[k]!;
        const raw = felt + shaking.acceleration(k) + sensors.accelerometer * noiseScale * accelerometerNoise.gaussian();
        acceleration[k] = accelerometerFilter.run(k, raw);
      }
    },
  };
}
