import type { AlertLevel } from "./finding.ts";

/**
 * The alert-level table: from which size on a finding is more than a note. One row a kind; every threshold has its
 * reason beside it. Change a number with evidence, and here only.
 */
export const ALERT_TABLE = {
  "motor-saturation": {
    // Any time at a limit is time without control that way, so it is never below advisory.
    // A fifth of a second is one half-wave of a 2.5 Hz motion: long enough to be seen in flight.
    caution: { share: 0.005, longest: 0.2 },
    // A tenth of the flight, or a whole second at a stretch, cannot be flown around; nor can a limit met while an axis
    // that this motor serves oscillates, since each half-wave then asks for what is not there.
    warning: { share: 0.1, longest: 1, withOscillation: true },
  },
  "motor-floor": {
    caution: { share: 0.005, longest: 0.2 },
    warning: { share: 0.1, longest: 1, withOscillation: true },
  },
  // Share of the command range left: a gust or a turn takes a tenth (common practice).
  "motor-headroom": { advisory: { left: 0.2 }, caution: { left: 0.1 } },
  // Below three tenths of what hover has, a gust that hover would shrug off can take the rest. A tenth for as long as
  // a half-wave of a 2.5 Hz motion is seen in flight; a second of it cannot be flown around.
  authority: {
    advisory: { least: 0.3 },
    caution: { longest: 0.2 },
    warning: { longest: 1 },
  },
  // Peak rate in rad/s (20 and 57 deg/s) and angle in rad (3 and 10 deg): from the first on people see it from the
  // ground, from the second on it takes most of what a gust would need. What grows is on its way there; what grows
  // while a motor is at a limit, or with less than a fifth of its control left, has nothing to stop it.
  oscillation: {
    caution: { rate: 0.35, angle: 0.0524 },
    warning: { rate: 1, angle: 0.1745, leastAuthority: 0.2 },
  },
  // Beyond 45 deg lift falls short of the weight; 3 rad/s turns an aircraft that far in a quarter of a second; two
  // seconds of falling are 20 m.
  upset: { warning: { angle: 0.785, rate: 3, recovery: 2 } },
  // Outward signs alone may have another cause; a term that is seen to wind up is real. What makes it dangerous is a
  // motor that comes to its limit in the swing back: the next wind-up then begins.
  "integrator-windup": { caution: { evidence: ["logged", "rebuilt"] }, warning: { overshootAtLimit: true } },
  // A sudden loss that the body felt has a cause that may go on: never below caution. Losing a fifth of a motor's thrust at once is a broken
  // blade or a failing controller. A tenth of the speed is a fifth of the thrust. 50 ms is the lag of a whole motor.
  "motor-response": { caution: { deficit: 0.1, late: 0.05 }, warning: { suddenDeficit: 0.2 } },
  // A value that is cut off misleads for as long as it lasts: a half-wave of a 2.5 Hz motion, or half a percent of the
  // flight as for motors at a limit.
  "sensor-clipping": { caution: { share: 0.005, longest: 0.2 } },
  // The amplitudes at which an oscillation would be a caution or a warning: an axis that strays as far as that is as
  // little under control, whatever the shape of the error. A lasting error of 2 deg is what a level check tolerates
  // (common practice).
  tracking: {
    advisory: { rateP95: 0.35, angleP95: 0.0873, angleBias: 0.0349 },
    caution: { rateP95: 1, angleP95: 0.1745 },
  },
  // Motors and propellers of one batch differ by a few percent, so a twentieth is where looking pays. Fifteen percent
  // is what a nicked blade or a bearing costs; against a good flight of the same aircraft half of that is as sure.
  // Nearly a third more from one motor leaves no room for a gust on that corner (common practice).
  "thrust-imbalance": {
    advisory: { excess: 0.05 },
    caution: { excess: 0.15, excessAgainstBaseline: 0.08 },
    warning: { excess: 0.3 },
  },
  // One rotor that shakes more than the others is worth a look. Five times as much is no matter of balancing, and half
  // a g of steady shake wears out bearings and sensors (common practice).
  vibration: { caution: { overOthers: 5, acceleration: 5 } },
  // A log that stops in the air hides the end of the flight; what happened there is unknown, so the flight is too.
  // A second without data hides a whole oscillation's beginning.
  "data-quality": { caution: { frozenInAir: true }, advisory: { gap: 0.25, lostShare: 0.01 } },
} as const;

/**
 * Below these a forecast of the next speed step is evidence against it. A twentieth of a motor's thrust is less than a
 * gust takes (common practice); a tenth of the control authority is next to nothing, as in the table above; at a damping
 * ratio of 0.05 a swing needs more than two cycles to halve (ln 2 / (2 pi 0.05)); a flutter margin of zero is the onset.
 */
export const NEXT_STEP_LIMITS = {
  "headroom-above": 0.05,
  "headroom-below": 0.05,
  authority: 0.1,
  damping: 0.05,
  "flutter-margin": 0,
} as const;

/** The highest level whose test holds; `note` where none does. */
export function highestLevel(tests: Partial<Record<Exclude<AlertLevel, "note">, boolean>>): AlertLevel {
  if (tests.warning) return "warning";
  if (tests.caution) return "caution";
  return tests.advisory ? "advisory" : "note";
}
