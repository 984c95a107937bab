import { nearestWord } from "./nearest-word.ts";
import { type Dimension, siUnitOf } from "./units.ts";

/** What is known about a channel from its name alone. */
export interface ChannelKind {
  readonly name: string;
  readonly dimension: Dimension;
  /** unit inside the program; motor commands and controller outputs keep the unit of the log instead */
  readonly unit: string;
  readonly meaning: string;
  /** the aircraft's own motion, measured: never still in flight, so that a value that stays the same is suspect */
  readonly isMotion: boolean;
  /** motor number counted from 1, for the channels of a motor */
  readonly motor: number | null;
}

const AXES = ["roll", "pitch", "yaw"] as const;
const DIRECTIONS = {
  forward: "forward, body heading frame",
  right: "to the right, body heading frame",
  down: "down",
  north: "north",
  east: "east",
} as const;

const fixed = new Map<string, ChannelKind>();

function add(name: string, dimension: Dimension, meaning: string, isMotion = false): void {
  fixed.set(name, { name, dimension, unit: siUnitOf(dimension), meaning, isMotion, motor: null });
}

for (const axis of AXES) {
  add(`rate.${axis}.measured`, "angular-rate", `${axis} rate`, true);
  add(`rate.${axis}.setpoint`, "angular-rate", `${axis} rate that the rate loop was asked for`);
  add(`rate.${axis}.integrator`, "control", `integral term of the ${axis} rate loop`);
  add(`rate.${axis}.output`, "control", `total controller output about the ${axis} axis`);
  add(`attitude.${axis}.measured`, "angle", `${axis} angle`, true);
  add(`attitude.${axis}.setpoint`, "angle", `${axis} angle that the attitude loop was asked for`);
}
for (const [direction, words] of Object.entries(DIRECTIONS)) {
  add(`velocity.${direction}`, "speed", `speed ${words}`);
  add(`velocity.${direction}.setpoint`, "speed", `speed asked for ${words}`);
  add(`position.${direction}`, "length", `position ${words}`);
  add(`position.${direction}.setpoint`, "length", `position asked for ${words}`);
}
add("speed.ground", "speed", "speed over ground");
add("speed.air", "speed", "speed through the air");
add("altitude", "length", "height above the take-off point, up positive");
add("heading", "angle", "heading");
for (const [direction, words] of [
  ["x", "forward"],
  ["y", "right"],
  ["z", "down"],
] as const) {
  add(`acceleration.${direction}`, "acceleration", `specific force ${words}, body axes`, true);
}
add("battery.voltage", "voltage", "battery voltage");
add("battery.current", "current", "battery current");
add("battery.power", "power", "battery power");
add("collective.demand", "share", "thrust asked of all motors together, 0..1");
add("mode", "text", "flight mode as logged");

const MOTOR_CHANNELS = {
  command: ["command", "what the flight controller sent to motor"],
  speed: ["angular-rate", "rotor speed of motor"],
  current: ["current", "current of motor"],
  temperature: ["temperature", "temperature of motor"],
} as const;

/** Every channel name without a motor number, and those of motor 1 to 8 for suggestions and lists. */
export const CHANNEL_NAMES: readonly string[] = [
  ...fixed.keys(),
  ...Array.from({ length: 8 }, (_, at) => Object.keys(MOTOR_CHANNELS).map((part) => `motor.${at + 1}.${part}`)).flat(),
];

/** What the contract says about a channel name; null where it has no such channel. */
export function channelKindOf(name: string): ChannelKind | null {
  const known = fixed.get(name);
  if (known !== undefined) return known;
  const [, digits, part] = /^motor\.([1-9]\d?)\.(command|speed|current|temperature)$/.exec(name) ?? [];
  if (digits === undefined || part === undefined) return null;
  const [dimension, words] = MOTOR_CHANNELS[part as keyof typeof MOTOR_CHANNELS];
  const motor = Number(digits);
  return {
    name,
    dimension,
    unit: siUnitOf(dimension),
    meaning: `${words} ${motor}`,
    isMotion: part === "speed",
    motor,
  };
}

/** The channel name that a mistyped one most likely means; null where none is near. */
export const nearestChannelName = (name: string): string | null => nearestWord(name, CHANNEL_NAMES);
