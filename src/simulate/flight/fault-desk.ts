import type { ControlAxes } from "../control/control-axes.ts";
import { type Fault, strengthAt } from "../faults/fault.ts";
import type { Instant, Patient } from "../faults/fault-effect.ts";
import { faultEffect } from "../faults/fault-effects.ts";
import { placeMotors, restoreVehicle } from "../physics/vehicle.ts";
import { GRAVITY, type Setup } from "../scenario/setup.ts";
import { STREAM } from "./streams.ts";

/** Brings faults in and takes them out as time goes on. */
export interface FaultDesk {
  /** renews all that depends on which faults act, and how strongly */
  renew(time: number): void;
  /** adds the faults' forces and moments of this instant */
  push(now: Instant, wrench: Float64Array): void;
}

export function createFaultDesk(
  setup: Setup,
  axes: ControlAxes,
  patient: Patient,
  faults: readonly Fault[],
): FaultDesk {
  const { scenario, vehicle: healthy } = setup;
  const { vehicle, controller } = patient;
  const entries = faults.flatMap((fault) => {
    const effect = faultEffect(fault, setup, STREAM.faults + scenario.faults.indexOf(fault));
    return effect === null ? [] : [{ fault, effect, strength: 0 }];
  });
  const totalThrust = healthy.maxThrust.reduce((sum, thrust) => sum + thrust, 0);

  /** The axis outputs that hold the aircraft level in hover, as its legs make the loops feel before lift-off. */
  function findTrim(): void {
    const each = (vehicle.mass * GRAVITY) / totalThrust;
    for (let k = 0; k < 3; k++) {
      let moment = 0;
      for (let i = 0; i < vehicle.motors; i++) {
        moment += vehicle.wrench[6 * i + 3 + k]! * vehicle.maxThrust[i]! * each;
      }
      controller.trim[k] = -moment / axes.moment[k]!;
    }
  }
  findTrim();

  return {
    renew(time) {
      let hasChanged = false;
      for (const entry of entries) {
        const strength = strengthAt(entry.fault, time);
        if (strength !== entry.strength) hasChanged = true;
        entry.strength = strength;
      }
      if (!hasChanged) return;
      restoreVehicle(vehicle, healthy);
      controller.gainFactor.fill(1);
      patient.outputDelay.fill(0);
      patient.shake.fill(0);
      patient.air.gusts = scenario.air.gusts;
      patient.gyro.limit = scenario.sensors.gyro.limit;
      for (const { effect, strength } of entries) if (strength > 0) effect.adjust?.(patient, strength);
      placeMotors(vehicle);
      findTrim();
    },
    push(now, wrench) {
      for (const { effect, strength } of entries) {
        if (strength > 0 && effect.push !== undefined) effect.push(now, strength, wrench);
      }
    },
  };
}
