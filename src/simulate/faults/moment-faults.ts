import { noiseStream } from "../physics/noise-stream.ts";
import { GRAVITY, type Setup } from "../scenario/setup.ts";
import type { Fault } from "./fault.ts";
import { AXIS_INDEX, changeBody, type FaultMakers } from "./fault-effect.ts";

type MomentFault =
  | "periodic-moment"
  | "vortex-shedding"
  | "ringing-structure"
  | "steady-moment"
  | "airspeed-moment"
  | "wind-up"
  | "kick";

/** Moments from outside that the motors have to hold. */
export const momentFaults: FaultMakers<MomentFault> = {
  "periodic-moment": (fault) => {
    const at = 3 + AXIS_INDEX[fault.axis];
    const { frequency, size, growth, most = Number.POSITIVE_INFINITY } = fault;
    return {
      push: ({ time }, strength, wrench) => {
        const since = time - fault.start;
        const amplitude = Math.min(most, size * Math.exp(growth * since));
        wrench[at] = wrench[at]! + strength * amplitude * Math.sin(2 * Math.PI * frequency * since);
      },
    };
  },
  "vortex-shedding": ({ axis, diameter, size }) => {
    const at = 3 + AXIS_INDEX[axis];
    let phase = 0;
    return {
      push: ({ airVelocity, dt }, strength, wrench) => {
        const speed = Math.hypot(airVelocity[0]!, airVelocity[1]!);
        phase += 2 * Math.PI * ((STROUHAL * speed) / diameter) * dt;
        wrench[at] = wrench[at]! + strength * size * (speed / 10) ** 2 * Math.sin(phase);
      },
    };
  },
  "ringing-structure": ({ axis, frequency, damping, size }, { scenario }, stream) => {
    const at = 3 + AXIS_INDEX[axis];
    const noise = noiseStream(scenario.seed, stream);
    const omega = 2 * Math.PI * frequency;
    // White noise of this strength makes the displacement of the mode as large as `size`, rms.
    const drive = size * Math.sqrt(4 * damping * omega ** 3);
    let moved = 0;
    let speed = 0;
    return {
      push: ({ dt }, strength, wrench) => {
        const shock = drive * Math.sqrt(dt) * noise.gaussian();
        speed += (-2 * damping * omega * speed - omega * omega * moved) * dt + shock;
        moved += speed * dt;
        wrench[at] = wrench[at]! + strength * moved;
      },
    };
  },
  "steady-moment": ({ axis, size }) => {
    const at = 3 + AXIS_INDEX[axis];
    return {
      push: (_, strength, wrench) => {
        wrench[at] = wrench[at]! + strength * size;
      },
    };
  },
  "airspeed-moment": ({ axis, size }) => {
    if (axis === "pitch") {
      return {
        adjust: (patient, strength) => {
          const { moment, slope } = patient.vehicle.body.pitching;
          changeBody(patient, { pitching: { moment: moment + strength * size, slope } });
        },
      };
    }
    const at = 3 + AXIS_INDEX[axis];
    return {
      push: ({ airVelocity }, strength, wrench) => {
        wrench[at] = wrench[at]! + strength * size * airVelocity[0]! * Math.abs(airVelocity[0]!);
      },
    };
  },
  "wind-up": (fault, setup) => {
    const at = 3 + AXIS_INDEX[fault.axis];
    const size = fault.share * hoverAuthority(setup, fault.axis);
    return {
      push: (_, strength, wrench) => {
        wrench[at] = wrench[at]! + strength * size;
      },
    };
  },
  kick: ({ axis, size, start, seconds }) => {
    const at = 3 + AXIS_INDEX[axis];
    return {
      push: ({ time }, strength, wrench) => {
        if (time < start + seconds) wrench[at] = wrench[at]! + strength * size;
      },
    };
  },
};

/** Shedding frequency times diameter over airspeed, nearly the same for all cylinders of this size (Strouhal 1878). */
export const STROUHAL = 0.2;

/**
 * N m, the most that the motors can give about an axis while they carry the weight. For the pattern of thrusts that
 * the controller uses on that axis, starting from hover.
 */
export function hoverAuthority({ vehicle }: Setup, axis: Extract<Fault, { axis: string }>["axis"]): number {
  const hover = (vehicle.mass * GRAVITY) / vehicle.maxThrust.reduce((sum, thrust) => sum + thrust, 0);
  const room = Math.min(hover, 1 - hover);
  let moment = 0;
  for (let i = 0; i < vehicle.motors; i++) {
    moment += Math.abs(vehicle.wrench[6 * i + 3 + AXIS_INDEX[axis]]!) * vehicle.maxThrust[i]! * room;
  }
  return moment;
}
