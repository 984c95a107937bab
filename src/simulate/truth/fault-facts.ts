import type { Axis } from "../../aircraft/index.ts";
import { gainFactorForDamping, type LoopChange, loopPole } from "../control/loop-pole.ts";
import type { Fault } from "../faults/fault.ts";
import { STROUHAL } from "../faults/moment-faults.ts";
import type { Plan } from "../mission/plan.ts";
import { GRAVITY, type Setup } from "../scenario/setup.ts";
import type { FaultTruth } from "./truth.ts";

/** What is known of a fault before it is flown. */
export interface FaultFacts {
  readonly axis: Axis | null;
  readonly loop: FaultTruth["loop"];
  readonly driver: FaultTruth["driver"];
  readonly motor: number | null;
  readonly channel: string | null;
  readonly mode: FaultTruth["mode"];
  /** Hz and 1/s where they are exactly known beforehand, else null: to be measured */
  readonly frequency: number | null;
  readonly growth: number | null;
  /** Hz, where its motion is to be looked for; null where it moves no axis that could be named */
  readonly band: readonly [number, number] | null;
  readonly findings: readonly string[];
}

const NONE: FaultFacts = {
  axis: null,
  loop: null,
  driver: null,
  motor: null,
  channel: null,
  mode: null,
  frequency: null,
  growth: null,
  band: null,
  findings: [],
};

/** Half an octave and a little more to either side. */
const around = (frequency: number): [number, number] => [0.65 * frequency, 1.5 * frequency];
/** Hz, where knocks and lasting moments show in a rate: between the trim's drift and the noise */
const BROAD: [number, number] = [0.2, 4];

/** Axis, driver, band and so on of a fault, from its kind and size. */
export function faultFacts(fault: Fault, setup: Setup, plan: Plan): FaultFacts {
  switch (fault.kind) {
    case "rate-gain":
      return loopFault(fault.axis, { factor: fault.factor }, setup);
    case "loop-delay":
      return loopFault(fault.axis, { delay: fault.delay }, setup);
    case "light-damping":
      return loopFault(fault.axis, { factor: gainFactorForDamping(setup, fault.axis, fault.damping) }, setup);
    case "periodic-moment":
      return { ...external(fault.axis, fault.frequency), frequency: fault.frequency, growth: fault.growth };
    case "ringing-structure":
      return { ...external(fault.axis, fault.frequency), frequency: fault.frequency };
    case "vortex-shedding": {
      return external(fault.axis, (STROUHAL * Math.max(1, fastestLeg(plan))) / fault.diameter);
    }
    case "swinging-load": {
      // Load and aircraft swing about their common centre.
      const stiffness = (GRAVITY / fault.length) * (1 + fault.mass / setup.vehicle.mass);
      const band = around(Math.sqrt(stiffness) / (2 * Math.PI));
      return { ...NONE, axis: "pitch", driver: "coupled", band, findings: ["oscillation"] };
    }
    case "boom": {
      const { mass, body } = setup.vehicle;
      const inertia = ((mass * fault.mass) / (mass + fault.mass)) * (fault.reach - body.centre.x) ** 2;
      const divergence = (body.pitching.slope + fault.slope) * fastestLeg(plan) ** 2;
      const facts = loopFault("pitch", { inertia, divergence }, setup);
      // It grows and fades with the speed of the leg: what it did is measured.
      return { ...facts, growth: null, loop: "attitude", findings: [...facts.findings, "thrust-imbalance"] };
    }
    case "kick":
      return { ...NONE, axis: fault.axis, band: BROAD, findings: ["upset"] };
    case "steady-moment":
    case "airspeed-moment":
      return { ...NONE, axis: fault.axis, band: BROAD, findings: ["motor-floor", "authority"] };
    case "wind-up":
      return { ...NONE, axis: fault.axis, band: BROAD, findings: ["integrator-windup", "authority"] };
    case "payload":
      return { ...NONE, findings: ["motor-saturation", "motor-headroom", "thrust-imbalance"] };
    case "cg-offset":
      return { ...NONE, findings: ["thrust-imbalance"] };
    case "motor-tilt":
      return { ...NONE, motor: fault.motor, findings: ["thrust-imbalance"] };
    case "weak-motor":
      return {
        ...NONE,
        motor: fault.motor,
        findings: fault.start > 0 && fault.ramp < 1 ? ["motor-response", "thrust-imbalance"] : ["thrust-imbalance"],
      };
    case "slow-motor":
      return { ...NONE, motor: fault.motor, findings: ["motor-response"] };
    case "damaged-blade":
      return { ...NONE, motor: fault.motor, findings: ["vibration"] };
    case "gusts":
      return NONE;
    case "rate-clipping":
      return { ...NONE, findings: ["sensor-clipping"] };
    case "stuck-channel":
      return { ...NONE, channel: fault.channel, findings: ["data-quality"] };
    case "log-gap":
    case "log-jitter":
    case "repeated-stamps":
    case "frozen-end":
      return { ...NONE, findings: ["data-quality"] };
  }
}

function loopFault(axis: Axis, change: LoopChange, setup: Setup): FaultFacts {
  const { re, im } = loopPole(setup, axis, change);
  const frequency = im / (2 * Math.PI);
  if (!(frequency > 0)) return { ...NONE, axis, loop: "rate" };
  return {
    ...NONE,
    axis,
    loop: "rate",
    driver: "controller",
    mode: { growth: re, frequency },
    growth: re > 0 ? re : null,
    // In a limit cycle the motors' limits take gain away, and the oscillation slows down.
    band: [0.45 * frequency, 1.5 * frequency],
    findings: re > 0 ? ["oscillation"] : ["loop-margin"],
  };
}

function external(axis: Axis, frequency: number): FaultFacts {
  return { ...NONE, axis, driver: "external", band: around(frequency), findings: ["oscillation"] };
}

function fastestLeg({ phases }: Plan): number {
  return Math.max(0, ...phases.map(({ speed }) => speed ?? 0));
}
