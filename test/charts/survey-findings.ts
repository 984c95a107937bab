import { CAUTIONS } from "../../src/findings/cautions.ts";
import type { Finding } from "../../src/findings/finding.ts";

/** Findings of every level about the survey flight, worded as the real ones are, in order of time. */
export function surveyFindings(duration = 240): Finding[] {
  const swing = 0.6 * duration;
  const findings: Finding[] = [
    {
      id: "thrust-imbalance-1",
      kind: "thrust-imbalance",
      severity: "caution",
      confidence: 0.91,
      start: 20,
      end: duration - 20,
      pattern: "single-motor",
      motor: 3,
      alternatives: ["centre-of-gravity"],
      summary: "Motor 3 (rear right) gives 22 % more thrust than the mean of all four, in hover and at every speed.",
      meaning:
        "A motor that works harder than the others comes to its ceiling first. A damaged propeller, a tilted motor or a load off the middle look alike from here.",
      cautions: [CAUTIONS.propellers, CAUTIONS.mechanicalFirst],
      next: [
        "Battery disconnected: look at the propeller of motor 3 for nicks, seating and the right way round.",
        "Turn motor 3 by hand and feel for rough bearings; check the mounting angle against motor 1.",
        "Weigh the aircraft at each arm and compare left with right.",
      ],
      measures: {
        excess: [
          { motor: 1, value: -0.14, unit: "1", low: -0.16, high: -0.12 },
          { motor: 2, value: -0.02, unit: "1", low: -0.04, high: 0 },
          { motor: 3, value: 0.22, unit: "1", low: 0.2, high: 0.24 },
          { motor: 4, value: -0.06, unit: "1", low: -0.08, high: -0.04 },
        ],
        "cg-forward": { value: -0.021, unit: "m", low: -0.024, high: -0.018 },
        "cg-right": { value: 0.034, unit: "m", low: 0.031, high: 0.037 },
      },
      method:
        "Mean thrust demand of each motor over steady stretches, (command fraction) squared, against the mean of all motors; intervals by moving-block bootstrap.",
      sources: ["Künsch 1989, Annals of Statistics 17(3):1217-1241, https://doi.org/10.1214/aos/1176347265"],
      charts: [],
    },
    {
      id: "tracking-roll-1",
      kind: "tracking",
      severity: "note",
      confidence: 0.99,
      start: 8,
      end: duration - 8,
      axis: "roll",
      loop: "rate",
      summary: "The roll rate stayed within 3.1 deg/s of what was asked for 95 % of the time in the air.",
      meaning: "This is how closely roll follows; compare it with other flights of this aircraft.",
      cautions: [],
      next: [],
      measures: {
        rms: { value: 0.021, unit: "rad/s", low: 0.02, high: 0.022 },
        p95: { value: 0.054, unit: "rad/s", low: 0.052, high: 0.057 },
        bias: { value: 0.0004, unit: "rad/s", low: -0.0011, high: 0.0019 },
        delay: { value: 0.081, unit: "s", low: 0.078, high: 0.084 },
      },
      method:
        "Difference between set point and response over the time in the air; delay from the peak of their cross-correlation.",
      sources: ["Knapp and Carter 1976, IEEE Trans. ASSP 24(4):320-327"],
      charts: [],
    },
    {
      id: "oscillation-pitch-1",
      kind: "oscillation",
      severity: "warning",
      confidence: 0.97,
      start: swing,
      end: swing + 26,
      axis: "pitch",
      loop: "rate",
      driver: "controller",
      trend: "growing",
      group: "1",
      leads: true,
      summary: `Pitch began to swing at ${swing.toFixed(1)} s, 1.52 times a second (between 1.49 and 1.55 Hz), and grew to 24 deg/s within 26 s.`,
      meaning:
        "The swing doubled every 3.5 s. Had it gone on, the motors would have run out of room to hold the nose. The controller itself fed it: its commands did work on the swing in nearly every cycle.",
      cautions: [CAUTIONS.changingGains, CAUTIONS.gainsAreNotAuthority],
      next: [
        "Battery disconnected: check the boom and its clamps for play; a loose boom swings at such a rate.",
        "Compare with a flight without the boom.",
        "Only then look at the gains of the pitch rate loop: towards less, one step at a time.",
      ],
      measures: {
        frequency: { value: 1.52, unit: "Hz", low: 1.49, high: 1.55 },
        amplitude: { value: 0.42, unit: "rad/s", low: 0.39, high: 0.45 },
        growth: { value: 0.2, unit: "1/s", low: 0.17, high: 0.23 },
        damping: { value: -0.021, unit: "1", low: -0.024, high: -0.018 },
        cycles: { value: 39, unit: "1" },
      },
      method:
        "Narrow-band energy above the floor of the flight's own calm stretches; onset at the change of slope of the log-envelope; growth by weighted regression on it.",
      sources: [
        "Hägglund 1995, Control Engineering Practice 3(11):1543-1551",
        "Fearnhead, Maidstone and Letchford 2019, J. Comput. Graph. Stat. 28(2):265-275",
      ],
      charts: [],
    },
    {
      id: "motor-saturation-3-1",
      kind: "motor-saturation",
      severity: "warning",
      confidence: 0.99,
      start: swing + 9,
      end: swing + 26,
      motor: 3,
      stretches: Array.from({ length: 9 }, (_, k) => ({ start: swing + 9 + k * 1.9, end: swing + 9.25 + k * 1.9 })),
      summary: "Motor 3 (rear right) was at its ceiling nine times, for 2.3 s in all, the longest 0.25 s.",
      meaning:
        "While a motor is at its ceiling the aircraft cannot lift that corner any further: pitch and roll were held by three motors.",
      cautions: [CAUTIONS.gainsAreNotAuthority, CAUTIONS.flyingAfterFinding],
      next: [
        "Find out why motor 3 works harder than the others (finding 1).",
        "Fly lighter or slower until that is mended.",
      ],
      measures: {
        share: { value: 0.0101, unit: "1" },
        longest: { value: 0.25, unit: "s" },
        episodes: { value: 9, unit: "1" },
      },
      method:
        "Direct count of samples within one quantisation step of the ceiling of the aircraft file, over the time in the air.",
      sources: [],
      charts: [],
    },
    {
      id: "motor-headroom-1-1",
      kind: "motor-headroom",
      severity: "advisory",
      confidence: 0.99,
      start: 8,
      end: duration - 8,
      motor: 1,
      summary: "Motor 1 (front left) came down to 14 % of its range above the floor in fast cruise.",
      meaning: "Little is left to push the nose down from there.",
      cautions: [],
      next: ["Watch it at the next speed step."],
      measures: {
        above: { value: 0.46, unit: "1" },
        below: { value: 0.14, unit: "1", low: 0.12, high: 0.16 },
        "thrust-above": { value: 0.71, unit: "1" },
        mean: { value: 0.39, unit: "1" },
      },
      method: "First and 99th percentile of the command over the time in the air.",
      sources: [],
      charts: [],
    },
  ];
  return findings.sort((a, b) => a.start - b.start);
}
