import { requireBetween } from "../checks.ts";
import { studentTQuantile } from "../statistics/student-t.ts";

/** A number with its uncertainty. */
export interface Estimate {
  readonly value: number;
  readonly standardError: number;
  /** Ends of the interval, at the confidence asked for. */
  readonly low: number;
  readonly high: number;
}

/** One oscillation, or one plain decay or growth (frequency 0), e^(growthRate t) cos(2 pi frequency t + phase). */
export interface Mode {
  /** Damped frequency, Hz. */
  readonly frequency: Estimate;
  /** Share of critical damping; below zero the oscillation grows. */
  readonly dampingRatio: Estimate;
  /** 1/s; below zero the oscillation decays. */
  readonly growthRate: Estimate;
}

/** The pole s = sigma + j omega, in 1/s and rad/s, with the covariance of the two. */
export interface UncertainPole {
  readonly sigma: number;
  readonly omega: number;
  /** Var(sigma), Cov(sigma, omega), Var(omega). */
  readonly covariance: readonly [number, number, number];
}

/** Puts an interval to a value, by Student's t or, with infinite degrees of freedom, by the normal distribution. */
export function estimate(value: number, standardError: number, degreesOfFreedom: number, confidence = 0.95): Estimate {
  requireBetween(confidence, 0, 1, "confidence");
  // Beyond 1e6 degrees of freedom Student's t is the normal distribution to seven digits.
  const factor =
    degreesOfFreedom > 0 ? studentTQuantile((1 + confidence) / 2, Math.min(degreesOfFreedom, 1e6)) : Number.NaN;
  const reach = factor * standardError;
  return { value, standardError, low: value - reach, high: value + reach };
}

/** A mode from its pole; the damping ratio's error by the delta method. */
export function modeOfPole(pole: UncertainPole, degreesOfFreedom: number, confidence?: number): Mode {
  const { sigma, omega, covariance } = pole;
  const [ss, so, oo] = covariance;
  const size = Math.hypot(sigma, omega);
  // zeta = -sigma / |s|: its gradient is omega / |s|³ (-omega, sigma).
  const scale = size > 0 ? omega / size ** 3 : 0;
  const dampingVariance = scale ** 2 * (omega ** 2 * ss - 2 * omega * sigma * so + sigma ** 2 * oo);
  return {
    frequency: estimate(omega / (2 * Math.PI), Math.sqrt(oo) / (2 * Math.PI), degreesOfFreedom, confidence),
    dampingRatio: estimate(
      size > 0 ? -sigma / size : 0,
      Math.sqrt(Math.max(0, dampingVariance)),
      degreesOfFreedom,
      confidence,
    ),
    growthRate: estimate(sigma, Math.sqrt(ss), degreesOfFreedom, confidence),
  };
}
