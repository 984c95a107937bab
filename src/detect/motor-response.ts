import { channelOf, commandedMotors, type Flight } from "../flight/index.ts";
import type { Detector, Estimate, EvidenceBase } from "./evidence.ts";
import { speedResponses } from "./speed-response.ts";
import { findThrustLosses } from "./thrust-loss/find-thrust-losses.ts";

/** A motor that does not do what it is told. */
export interface MotorResponseEvidence extends EvidenceBase {
  readonly kind: "motor-response";
  readonly motor: number;
  /**
   * `sudden-loss`: from one moment on the aircraft needs a larger command of this motor for the same thrust;
   * `short`: its rotor turns slower (or draws less) than the other motors' at the same command; `slow`: it follows late
   */
  readonly sign: "sudden-loss" | "short" | "slow";
  readonly by: "commands" | "speed" | "current";
  /** whether yaw speaks for this motor too, for `sudden-loss`; false where what turns the nose changed meanwhile */
  readonly isYawKnown: boolean;
  /** s, what the other motors took, for `slow` */
  readonly usual: number | null;
}

/**
 * Finds motors that do not follow: by rotor speed or motor current where logged, each motor against the others at the
 * same command; and by what the rest of the log shows of a sudden loss of thrust.
 */
export const motorResponse: Detector<MotorResponseEvidence> = {
  kind: "motor-response",
  missing(flight) {
    const commands = commandedMotors(flight).length > 0 ? [] : ["motor.N.command"];
    const aircraft = flight.aircraft === null ? ["aircraft file: motors, command"] : [];
    return [...commands, ...aircraft, ...(showsResponse(flight) ? [] : [RESPONSE])];
  },
  detect(flight) {
    return [...lossesOf(flight), ...speedResponses(flight).map(asEvidence(flight))].sort((a, b) => a.start - b.start);
  },
};

/** What shows how a motor answers: the body's turning, or the rotor speeds or currents of all motors. */
const RESPONSE = "rate.roll.measured, rate.pitch.measured or motor.N.speed or motor.N.current";

function showsResponse(flight: Flight): boolean {
  const isLogged = (name: string) => channelOf(flight, name) !== undefined;
  const motors = commandedMotors(flight);
  return (
    ["rate.roll.measured", "rate.pitch.measured"].every(isLogged) ||
    ["speed", "current"].some((by) => motors.length > 0 && motors.every((motor) => isLogged(`motor.${motor}.${by}`)))
  );
}

function lossesOf(flight: Flight): MotorResponseEvidence[] {
  return findThrustLosses(flight).map(({ motor, at, deficit, low, high, confidence, isYawKnown }) => ({
    kind: "motor-response",
    motor,
    sign: "sudden-loss",
    by: "commands",
    isYawKnown,
    usual: null,
    start: at,
    end: flight.airborne.find(({ start, end }) => at >= start && at <= end)?.end ?? at,
    confidence,
    measures: { deficit: { value: deficit, unit: "1", low, high } },
  }));
}

function asEvidence(flight: Flight) {
  return (found: ReturnType<typeof speedResponses>[number]): MotorResponseEvidence => {
    const delay: Estimate | undefined = found.delay && { ...found.delay, unit: "s" };
    const deficit: Estimate | undefined = found.deficit && { ...found.deficit, unit: "1" };
    return {
      kind: "motor-response",
      motor: found.motor,
      sign: found.sign,
      by: found.by,
      isYawKnown: false,
      usual: found.usual,
      start: found.start ?? flight.airborne[0]!.start,
      end: flight.airborne.at(-1)!.end,
      confidence: 0.9,
      measures: { ...(deficit && { deficit }), ...(delay && { delay }) },
    };
  };
}
