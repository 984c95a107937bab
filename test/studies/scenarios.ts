import {
  analyticSignal,
  autoregression,
  autoregressiveModes,
  butterworth,
  changePoint,
  crossCorrelationDelay,
  filterZeroPhase,
  growthRate,
  growthRateOf,
  magnitude,
  matrixPencil,
  mean,
  meanInterval,
  movingBlockBootstrap,
  type RandomGenerator,
  stationaryBootstrap,
  toneEstimate,
} from "../../src/signal/index.ts";
import type { Trial } from "./coverage.ts";

/** A free response of one mode in white noise; signal-to-noise ratio of the powers over the record. */
export function ringDown(options: {
  dampingRatio: number;
  decibels: number;
  count: number;
  chooseOrder?: boolean;
}): Trial {
  const { dampingRatio, decibels, count, chooseOrder = false } = options;
  const [rate, frequency] = [100, 4];
  const sigma = growthRateOf(dampingRatio, frequency);
  return (random) => {
    const phase = 2 * Math.PI * random.uniform();
    const clean = Float64Array.from({ length: count }, (_, n) => {
      const t = n / rate;
      return Math.exp(sigma * t) * Math.cos(2 * Math.PI * frequency * t + phase);
    });
    const noise = Math.sqrt(clean.reduce((sum, x) => sum + x * x, 0) / count / 10 ** (decibels / 10));
    const noisy = clean.map((x) => x + noise * random.gaussian());
    const { modes } = matrixPencil(noisy, rate, chooseOrder ? {} : { order: 2 });
    // The mode is known by its place: the strongest between half and twice the true frequency.
    const mode = modes.find(({ frequency: { value } }) => value > frequency / 2 && value < 2 * frequency);
    if (!mode) return undefined;
    return {
      frequency: { ...mode.frequency, truth: frequency },
      "damping ratio": { ...mode.dampingRatio, truth: dampingRatio },
      "growth rate": { ...mode.growthRate, truth: sigma },
    };
  };
}

/** White noise through one resonance, sampled: an autoregression of order two. */
export function noiseDriven(options: { dampingRatio: number; count: number; method: "burg" | "yule-walker" }): Trial {
  const { dampingRatio, count, method } = options;
  const [rate, frequency] = [50, 4];
  const sigma = growthRateOf(dampingRatio, frequency);
  const radius = Math.exp(sigma / rate);
  const [a1, a2] = [2 * radius * Math.cos((2 * Math.PI * frequency) / rate), -radius * radius];
  return (random) => {
    const settle = 500;
    const all = new Float64Array(count + settle);
    for (let n = 2; n < all.length; n++) all[n] = a1 * all[n - 1]! + a2 * all[n - 2]! + random.gaussian();
    const [mode] = autoregressiveModes(autoregression(all.slice(settle), 2, { method }), rate);
    if (!mode) return undefined;
    return {
      frequency: { ...mode.frequency, truth: frequency },
      "damping ratio": { ...mode.dampingRatio, truth: dampingRatio },
      "growth rate": { ...mode.growthRate, truth: sigma },
    };
  };
}

/** An envelope whose logarithm has first-order autoregressive residuals of correlation time tau. */
export function correlatedEnvelope(options: { tau: number; duration: number }): Trial {
  const [rate, sigma] = [50, 0.4];
  const phi = Math.exp(-1 / (options.tau * rate));
  return (random) => {
    let level = 0.1 * random.gaussian();
    const envelope = Float64Array.from({ length: options.duration * rate }, (_, n) => {
      level = phi * level + 0.1 * Math.sqrt(1 - phi * phi) * random.gaussian();
      return Math.exp((sigma * n) / rate + level);
    });
    return { "growth rate": { ...growthRate(envelope, rate), truth: sigma } };
  };
}

/** A growing oscillation in white noise: band-pass filtered, its Hilbert envelope, the ends left out. */
export function growingOscillation(options: { decibels: number; duration: number }): Trial {
  const [rate, frequency, sigma] = [200, 6, 0.5];
  const count = options.duration * rate;
  const band = butterworth(2, [4, 8], rate);
  // The ratio of the powers in the band where the envelope is least, at the start of what is used.
  const inBand = 4 / (rate / 2);
  const noise = Math.sqrt(0.5 / inBand / 10 ** (options.decibels / 10));
  return (random) => {
    const trim = rate;
    const samples = Float64Array.from({ length: count + 2 * trim }, (_, n) => {
      const t = (n - trim) / rate;
      return Math.exp(sigma * t) * Math.cos(2 * Math.PI * frequency * t) + noise * random.gaussian();
    });
    const envelope = magnitude(analyticSignal(filterZeroPhase(band, samples))).slice(trim, trim + count);
    return { "growth rate": { ...growthRate(envelope, rate), truth: sigma } };
  };
}

/** A steady tone of amplitude 1 in noise of deviation 1, white or a first-order autoregression. */
export function steadyTone(options: { count: number; phi: number; amplitude: number }): Trial {
  const { count, phi, amplitude } = options;
  const rate = 100;
  return (random) => {
    const frequency = 9 + 2 * random.uniform();
    const phase = 2 * Math.PI * random.uniform();
    const drift = firstOrder(random, count, phi);
    const samples = drift.map((e, n) => e + amplitude * Math.cos((2 * Math.PI * frequency * n) / rate + phase));
    const tone = toneEstimate(samples, rate, { from: 5 });
    return {
      frequency: { ...tone.frequency, truth: frequency },
      amplitude: { ...tone.amplitude, truth: amplitude },
    };
  };
}

/** A first-order autoregression of variance 1. */
function firstOrder(random: RandomGenerator, count: number, phi: number): Float64Array {
  let level = random.gaussian();
  return Float64Array.from({ length: count }, () => {
    level = phi * level + Math.sqrt(1 - phi * phi) * random.gaussian();
    return level;
  });
}

/** The mean of a correlated record by four ways: replicates with Student's t, eight blocks, two bootstraps. */
export function correlatedMean(options: { phi: number; count: number; legs: number }): Trial {
  const { phi, count, legs } = options;
  return (random) => {
    const records = Array.from({ length: legs }, () => firstOrder(random, count, phi));
    const first = records[0]!;
    const block = Math.floor(count / 8);
    const blocks = Float64Array.from({ length: 8 }, (_, i) => mean(first.subarray(i * block, (i + 1) * block)));
    const byLegs = meanInterval(Float64Array.from(records, mean));
    const byBlocks = meanInterval(blocks);
    if (byLegs.kind !== "interval" || byBlocks.kind !== "interval") return undefined;
    const bootstrap = { resamples: 300, seed: random.next() };
    return {
      [`${legs} legs, t`]: { ...byLegs, truth: 0 },
      "8 blocks of one leg, t": { ...byBlocks, truth: 0 },
      "moving blocks, automatic length": { ...movingBlockBootstrap(first, mean, bootstrap), truth: 0 },
      "stationary bootstrap, automatic length": { ...stationaryBootstrap(first, mean, bootstrap), truth: 0 },
    };
  };
}

/** A step of the mean in white or correlated noise of deviation 1. */
export function levelStep(options: { step: number; phi: number }): Trial {
  return (random) => {
    const truth = 60 + random.below(80);
    const values = firstOrder(random, 200, options.phi).map((e, n) => e + (n < truth ? 0 : options.step));
    return { place: { ...changePoint(values), truth } };
  };
}

/** Low-passed noise, and the same delayed by a part of a sample, with white noise added to the second. */
export function delayedNoise(options: { decibels: number }): Trial {
  return (random) => {
    // The delay is a whole number of samples at ten times the rate, of which every tenth is kept.
    const fine = filterZeroPhase(butterworth(4, 10, 1000), random.gaussians(4000));
    const shift = random.below(60) - 30;
    const pick = (offset: number) => Float64Array.from({ length: 380 }, (_, n) => fine[100 + 10 * n - offset]!);
    const [a, b] = [pick(0), pick(shift)];
    const noise = Math.sqrt(b.reduce((sum, x) => sum + x * x, 0) / b.length / 10 ** (options.decibels / 10));
    const noisy = b.map((x) => x + noise * random.gaussian());
    const { delay, standardError } = crossCorrelationDelay(a, noisy, 100);
    return { delay: { low: delay - 1.96 * standardError, high: delay + 1.96 * standardError, truth: shift / 1000 } };
  };
}
