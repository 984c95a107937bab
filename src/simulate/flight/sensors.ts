import { butterworth } from "../../signal/index.ts";
import { noiseStream } from "../physics/noise-stream.ts";

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
