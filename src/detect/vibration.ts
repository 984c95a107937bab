import { channelOf, type Flight } from "../flight/index.ts";
import type { Channel } from "../log/channel.ts";
import { median, quantile } from "../signal/index.ts";
import { rangesWithin, valuesWithin } from "./air-time.ts";
import type { Detector, EvidenceBase } from "./evidence.ts";
import { type RotorTone, rotorTones } from "./rotor-tone.ts";

/** A motor that shakes the aircraft with the turn of its rotor more than the others do. */
export interface VibrationEvidence extends EvidenceBase {
  readonly kind: "vibration";
  readonly motor: number;
  readonly channel: string;
  /** 1: once per turn (unbalance); 2 and more: blades */
  readonly order: number;
}

const SENSORS = [
  ...["x", "y", "z"].map((axis) => `acceleration.${axis}`),
  ...["roll", "pitch", "yaw"].map((axis) => `rate.${axis}.measured`),
];
/** Once per turn, and once per blade of two- and three-bladed propellers. */
const ORDERS = [1, 2, 3];
/** A tone this many times above what lies beside it is no accident of noise. */
const CLEAR = 3;
/** A motor that shakes so many times as much as the middle of all stands out: small unbalance differs by a factor or two. */
const STANDS_OUT = 2.5;
/** Share of the sample rate up to which a tone is believed: beyond half it would be folded, and filters end before. */
const HIGHEST = 0.45;
/**
 * Looks for tones that follow the rotors' speeds in the accelerometer and gyro and names the motor whose tone stands
 * out from the others'. Nothing is said of orders that the sample rate would fold down to other frequencies.
 */
export const vibration: Detector<VibrationEvidence> = {
  kind: "vibration",
  missing(flight) {
    const motors = spinning(flight);
    if (motors.length < 2) return ["motor.N.speed"];
    const sensors = sensorsOf(flight);
    if (sensors.length === 0) return ["acceleration.x", "rate.roll.measured"];
    const needed = Math.min(...motors.map(({ top }) => top)) / HIGHEST;
    return sensors.some(({ rate }) => rate >= needed)
      ? []
      : [`acceleration or rate at ${Math.ceil(needed / 50) * 50} Hz or more`];
  },
  detect(flight) {
    const motors = spinning(flight);
    const found = sensorsOf(flight).flatMap((sensor) =>
      ORDERS.flatMap((order) => outstanding(flight, sensor, motors, order)),
    );
    // One finding a motor: the sensor and order that show it clearest.
    const best = new Map<number, (typeof found)[number]>();
    for (const one of found) {
      const known = best.get(one.evidence.motor);
      if (known === undefined || one.clearness > known.clearness) best.set(one.evidence.motor, one);
    }
    return [...best.values()].map(({ evidence }) => evidence);
  },
};

interface Spinning {
  readonly motor: number;
  readonly speed: Channel;
  /** Hz, once per turn, 95 % of the air time below */
  readonly top: number;
}

function spinning(flight: Flight): Spinning[] {
  const found: Spinning[] = [];
  for (const [name, speed] of flight.log.channels) {
    const number = /^motor\.(\d+)\.speed$/.exec(name)?.[1];
    if (number === undefined) continue;
    const inAir = valuesWithin(speed.series, flight.airborne);
    if (inAir.length === 0) continue;
    const top = quantile(inAir, 0.95) / (2 * Math.PI);
    if (top > 0) found.push({ motor: Number(number), speed, top });
  }
  return found.sort((a, b) => a.motor - b.motor);
}

const sensorsOf = (flight: Flight): Channel[] => SENSORS.flatMap((name) => channelOf(flight, name) ?? []);

function outstanding(flight: Flight, sensor: Channel, motors: readonly Spinning[], order: number) {
  if (motors.some(({ top }) => order * top > HIGHEST * sensor.rate)) return [];
  const ranges = rangesWithin(sensor.series.time, flight.airborne);
  const tones = rotorTones(
    sensor.series,
    motors.map(({ speed }) => speed.series),
    order,
    ranges,
  )?.map((tone, i) => ({ motor: motors[i]!.motor, ...tone }));
  if (tones === undefined) return [];
  const usual = median(Float64Array.from(tones, ({ amplitude }) => amplitude));
  return tones
    .filter(({ amplitude, background }) => amplitude > CLEAR * background && amplitude > STANDS_OUT * usual)
    .map((tone) => ({
      clearness: tone.amplitude / tone.background,
      evidence: evidenceOf(flight, sensor, tone, usual, order),
    }));
}

function evidenceOf(
  { airborne }: Flight,
  { name, unit }: Channel,
  { motor, amplitude, frequency }: RotorTone & { motor: number },
  usual: number,
  order: number,
): VibrationEvidence {
  return {
    kind: "vibration",
    motor,
    channel: name,
    order,
    start: airborne[0]!.start,
    end: airborne.at(-1)!.end,
    confidence: 0.9,
    measures: {
      frequency: { value: frequency, unit: "Hz" },
      amplitude: { value: amplitude, unit },
      "over-others": { value: amplitude / usual, unit: "1" },
    },
  };
}
