import { channelOf, type Flight, motorsWith } from "../flight/index.ts";
import type { Channel } from "../log/channel.ts";
import { median, quantile } from "../signal/index.ts";
import { unbrokenRanges, valuesWithin } from "./air-time.ts";
import type { Detector, Estimate, EvidenceBase, MotorEstimate } from "./evidence.ts";
import { type FollowingLine, linesThatFollow } from "./vibration/follow-command.ts";
import { hasMotorDrives } from "./vibration/motor-drives.ts";
import { rotorTones } from "./vibration/rotor-tone.ts";

/** A motor that shakes the aircraft with the turn of its rotor more than the others do. */
export interface VibrationEvidence extends EvidenceBase {
  readonly kind: "vibration";
  readonly motor: number;
  readonly channel: string;
  /** whether the tone was followed by the rotor's logged speed or by the motor's command */
  readonly from: "speed" | "command";
  /** 1: once per turn (unbalance); 2 and more: blades; null where no speed tells it */
  readonly order: number | null;
  /** `tone`: amplitude of what follows each motor */
  readonly perMotor: Readonly<Record<"tone" | string, readonly MotorEstimate[]>>;
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
/** Hz; rotors turn some 40 to 90 times a second in hover (common practice), and a slower sensor folds most of them. */
const SLOWEST_SENSOR = 200;

/**
 * Looks for tones that follow the rotors' speeds in the accelerometer and gyro and names the motor whose tone stands
 * out from the others'. Where no speeds are logged, the commands take their place: a rotor's frequency goes with its
 * command. Nothing is said of tones that the sample rate would fold down to other frequencies.
 */
export const vibration: Detector<VibrationEvidence> = {
  kind: "vibration",
  missing(flight) {
    const sensors = sensorsOf(flight);
    const motors = spinning(flight);
    const byCommand = motors.length < 2;
    if (byCommand && !hasMotorDrives(flight)) return ["motor.N.speed"];
    if (sensors.length === 0) return ["acceleration.x", "rate.roll.measured"];
    const needed = byCommand ? SLOWEST_SENSOR : Math.min(...motors.map(({ top }) => top)) / HIGHEST;
    return sensors.some(({ rate }) => rate >= 0.99 * needed)
      ? []
      : [`acceleration or rate at ${Math.ceil(needed / 50) * 50} Hz or more`];
  },
  detect(flight) {
    const motors = spinning(flight);
    return motors.length < 2 ? byCommand(flight) : bySpeed(flight, motors);
  },
};

interface Spinning {
  readonly motor: number;
  readonly speed: Channel;
  /** Hz, once per turn, 95 % of the air time below */
  readonly top: number;
}

function spinning(flight: Flight): Spinning[] {
  return motorsWith(flight, "speed").flatMap((motor) => {
    const speed = channelOf(flight, `motor.${motor}.speed`)!;
    const inAir = valuesWithin(speed.series, flight.airborne);
    const top = inAir.length === 0 ? 0 : quantile(inAir, 0.95) / (2 * Math.PI);
    return top > 0 ? [{ motor, speed, top }] : [];
  });
}

const sensorsOf = (flight: Flight): Channel[] => SENSORS.flatMap((name) => channelOf(flight, name) ?? []);

function bySpeed(flight: Flight, motors: readonly Spinning[]): VibrationEvidence[] {
  const found = sensorsOf(flight).flatMap((sensor) => outstanding(flight, sensor, motors));
  // One finding a motor: the sensor and order that show it clearest.
  const best = new Map<number, (typeof found)[number]>();
  for (const one of found) {
    const known = best.get(one.evidence.motor);
    if (known === undefined || one.clearness > known.clearness) best.set(one.evidence.motor, one);
  }
  return [...best.values()].map(({ evidence }) => evidence);
}

/** The motors whose tone stands out in one sensor, at each order that its rate does not fold. */
function outstanding(flight: Flight, sensor: Channel, motors: readonly Spinning[]) {
  const ranges = unbrokenRanges(sensor, flight.airborne);
  const speeds = motors.map(({ speed }) => speed.series);
  const seen = ORDERS.filter((order) => motors.every(({ top }) => order * top <= HIGHEST * sensor.rate));
  const tones = seen.flatMap((order) => {
    const ofOrder = rotorTones(sensor.series, speeds, order, ranges);
    return ofOrder === null ? [] : [{ order, ofOrder }];
  });
  return tones.flatMap(({ order, ofOrder }) => {
    const amplitudes = ofOrder.map(({ amplitude }) => amplitude);
    const usual = median(Float64Array.from(amplitudes));
    return ofOrder.flatMap(({ amplitude, background, frequency }, i) => {
      if (amplitude <= CLEAR * background || amplitude <= STANDS_OUT * usual) return [];
      const harmonics = Object.fromEntries(
        tones.flatMap((other): [string, Estimate][] => {
          const tone = other.ofOrder[i]!;
          return other.order > order && tone.amplitude > CLEAR * tone.background
            ? [[`amplitude-${other.order}`, { value: tone.amplitude, unit: sensor.unit }]]
            : [];
        }),
      );
      const evidence = evidenceOf(flight, sensor, {
        motor: motors[i]!.motor,
        from: "speed",
        order,
        frequency,
        usual,
        tone: motors.map(({ motor }, m) => ({ motor, value: amplitudes[m]!, unit: sensor.unit })),
        harmonics,
        confidence: 0.9,
      });
      return [{ clearness: amplitude / background, evidence }];
    });
  });
}

function byCommand(flight: Flight): VibrationEvidence[] {
  const sensors = sensorsOf(flight).filter(({ rate }) => rate >= 0.99 * SLOWEST_SENSOR);
  return linesThatFollow(flight, sensors, HIGHEST).map(({ motor, channel, frequency, amplitudes }: FollowingLine) =>
    evidenceOf(flight, channel, {
      motor,
      from: "command",
      order: null,
      frequency,
      usual: null,
      tone: amplitudes.map((value, i) => ({ motor: i + 1, value, unit: channel.unit })),
      harmonics: {},
      // A wrong name needs two drives that wander alike; the frequency's multiple of the turn stays open.
      confidence: 0.8,
    }),
  );
}

interface ToneFacts {
  readonly motor: number;
  readonly from: VibrationEvidence["from"];
  readonly order: number | null;
  readonly frequency: number;
  /** the middle of all motors' amplitudes; null where what follows the others cannot be told apart */
  readonly usual: number | null;
  readonly tone: readonly MotorEstimate[];
  readonly harmonics: Readonly<Record<string, Estimate>>;
  readonly confidence: number;
}

function evidenceOf(
  { airborne }: Flight,
  { name, unit }: Channel,
  { motor, from, order, frequency, usual, tone, harmonics, confidence }: ToneFacts,
): VibrationEvidence {
  const amplitude = tone.find((one) => one.motor === motor)!.value;
  return {
    kind: "vibration",
    motor,
    channel: name,
    from,
    order,
    start: airborne[0]!.start,
    end: airborne.at(-1)!.end,
    confidence,
    measures: {
      frequency: { value: frequency, unit: "Hz" },
      amplitude: { value: amplitude, unit },
      ...(usual !== null && { "over-others": { value: amplitude / usual, unit: "1" } }),
      ...harmonics,
    },
    perMotor: from === "speed" ? { tone } : {},
  };
}
