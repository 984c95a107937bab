import { type Meaning, meaningOfWord } from "./vocabulary.ts";
import type { NameParts } from "./words-of.ts";

/** What a column's words say that it is. */
export interface WordMatch {
  /** contract name of the channel, or `time` */
  readonly channel: string;
  /** -1 where the words name the opposite direction: west is east, negative */
  readonly sign: 1 | -1;
  /** 0..1, how sure the words make it */
  readonly confidence: number;
  readonly why: string;
}

type Found = Omit<WordMatch, "why" | "sign"> & { readonly sign?: 1 | -1 };

/** The words of a name with their meanings, as the rules below ask about them. */
class Words {
  readonly meanings: ReadonlySet<Meaning>;
  readonly numbers: readonly number[];
  /** words without a known meaning, numbers left out */
  readonly strange: readonly string[];

  constructor(
    readonly words: readonly string[],
    readonly units: readonly string[],
  ) {
    const known = words.map(meaningOfWord);
    this.meanings = new Set(known.filter((meaning) => meaning !== null));
    this.numbers = words.filter((word) => /^\d{1,3}$/.test(word)).map(Number);
    this.strange = words.filter((word, at) => known[at] === null && !/^\d+$/.test(word));
  }

  has(...meanings: Meaning[]): boolean {
    return meanings.some((meaning) => this.meanings.has(meaning));
  }

  hasUnit(...units: string[]): boolean {
    return units.some((unit) => this.units.includes(unit));
  }
}

/** Each rule either knows what the words are or passes; the first that knows decides. */
const RULES: readonly ((words: Words) => Found | null)[] = [
  mode,
  motor,
  letterRate,
  axis,
  acceleration,
  velocity,
  letterVelocity,
  position,
  altitude,
  battery,
  collective,
  heading,
  time,
];

/** A word that no rule knows may change what the others mean (`roll gain`, `motor 1 fault`): it costs this factor. */
const STRANGE_WORD = 0.5;

/** Words that make of a quantity something about it. */
const SPOILERS = new Set(
  "error err gain trim limit fault status state variance var noise count health flag bias offset min max".split(" "),
);

/** What a column with this name most likely is; null where its words do not say. */
export function channelOfWords({ words, units }: NameParts): WordMatch | null {
  if (words.some((word) => SPOILERS.has(word))) return null;
  const asked = new Words(words, units);
  for (const rule of RULES) {
    const found = rule(asked);
    if (found === null) continue;
    const unexplained = asked.strange.filter((word) => !EXPLAINED_BY_RULES.has(word));
    const confidence = found.confidence * STRANGE_WORD ** unexplained.length;
    const spoken = words.map((word) => `"${word}"`).join(" ");
    return { sign: 1, ...found, confidence, why: `the words ${spoken} say ${found.channel}` };
  }
  return null;
}

/** Letters that only mean something to a rule. */
const EXPLAINED_BY_RULES = new Set(["p", "q", "r", "x", "y", "z", "vn", "ve", "vd", "vx", "vy", "vz", "v", "set"]);

function mode(words: Words): Found | null {
  return words.has("mode") ? { channel: "mode", confidence: 0.8 } : null;
}

function motor(words: Words): Found | null {
  const [number, ...more] = words.numbers;
  if (number === undefined || more.length > 0 || words.has("roll", "pitch", "yaw", "battery")) return null;
  if (!words.has("motor") && !words.has("output")) return null;
  // "m" alone is a short word: it could be a metre or a magnet.
  const confidence = words.has("motor") && !words.words.includes("m") ? 0.95 : 0.85;
  const part = motorPart(words);
  return part === null ? null : { channel: `motor.${number}.${part}`, confidence };
}

function motorPart(words: Words): string | null {
  if (words.has("voltage", "power", "position", "acceleration", "time")) return null;
  if (words.has("temperature") || words.hasUnit("degC", "degF")) return "temperature";
  if (words.has("current") || words.hasUnit("A", "mA")) return "current";
  if (words.has("setpoint", "drive", "output") || words.hasUnit("us", "%")) return "command";
  if (words.has("speed", "revolutions", "rate") || words.hasUnit("rpm", "rad/s", "Hz", "deg/s")) return "speed";
  return words.has("integrator") ? null : "command";
}

const LETTER_AXES: Readonly<Record<string, string>> = {
  p: "roll",
  q: "pitch",
  r: "yaw",
  x: "roll",
  y: "pitch",
  z: "yaw",
};

/** p, q and r are the body rates of every textbook; a gyro's x, y and z are the same. */
function letterRate(words: Words): Found | null {
  if (words.has("roll", "pitch", "yaw", "acceleration", "speed", "position")) return null;
  const isGyro = words.has("rate");
  const letters = words.strange.filter((word) => (isGyro ? /^[pqrxyz]$/ : /^[pqr]$/).test(word));
  if (letters.length !== 1 || words.numbers.length > 0) return null;
  const confidence = isGyro ? 0.9 : 0.8;
  return { channel: `rate.${LETTER_AXES[letters[0]!]}.${roleOf(words)}`, confidence };
}

function roleOf(words: Words): "integrator" | "output" | "setpoint" | "measured" {
  if (words.has("integrator")) return "integrator";
  if (words.has("output")) return "output";
  return words.has("setpoint") || words.words.includes("set") ? "setpoint" : "measured";
}

function axis(words: Words): Found | null {
  const axes = (["roll", "pitch", "yaw"] as const).filter((name) => words.has(name));
  if (axes.length !== 1 || words.numbers.length > 0 || words.has("speed", "position", "acceleration")) return null;
  const role = roleOf(words);
  if (role === "integrator" || role === "output") {
    return { channel: `rate.${axes[0]}.${role}`, confidence: words.has("rate") || role === "output" ? 0.85 : 0.7 };
  }
  if (words.has("rate") || words.hasUnit("rad/s", "deg/s")) {
    return { channel: `rate.${axes[0]}.${role}`, confidence: 0.95 };
  }
  if (words.has("drive", "lift")) return null;
  return { channel: `attitude.${axes[0]}.${role}`, confidence: words.has("angle") ? 0.95 : 0.9 };
}

function acceleration(words: Words): Found | null {
  if (!words.has("acceleration") || words.has("setpoint")) return null;
  const letter = words.strange.find((word) => /^[xyz]$/.test(word));
  if (letter !== undefined) return { channel: `acceleration.${letter}`, confidence: 0.9 };
  if (words.has("forward")) return { channel: "acceleration.x", confidence: 0.85 };
  if (words.has("right")) return { channel: "acceleration.y", confidence: 0.85 };
  return words.has("down") ? { channel: "acceleration.z", confidence: 0.85 } : null;
}

/** Direction of the contract and the sense in which each word points along it. */
const DIRECTIONS = [
  ["north", "north", 1],
  ["south", "north", -1],
  ["east", "east", 1],
  ["west", "east", -1],
  ["down", "down", 1],
  ["up", "down", -1],
  ["forward", "forward", 1],
  ["right", "right", 1],
  ["left", "right", -1],
] as const;

function velocity(words: Words): Found | null {
  const direction = DIRECTIONS.find(([word]) => words.has(word));
  const isSpeed = words.has("speed") || words.words.includes("v");
  const setpoint = roleOf(words) === "setpoint" ? ".setpoint" : "";
  if (direction !== undefined && (isSpeed || (words.has("rate") && words.has("up", "down")))) {
    return { channel: `velocity.${direction[1]}${setpoint}`, sign: direction[2], confidence: 0.9 };
  }
  if (!isSpeed || setpoint !== "" || words.numbers.length > 0) return null;
  if (words.has("air")) return { channel: "speed.air", confidence: 0.9 };
  if (words.has("ground")) return { channel: "speed.ground", confidence: 0.9 };
  return words.has("speed") && words.words.length === 1 ? { channel: "speed.ground", confidence: 0.5 } : null;
}

const LETTER_DIRECTIONS: Readonly<Record<string, readonly [string, number]>> = {
  vn: ["north", 0.85],
  ve: ["east", 0.85],
  vd: ["down", 0.8],
  // x, y and z may lie along the body or along the earth: worth a question, not a promise.
  vx: ["forward", 0.4],
  vy: ["right", 0.4],
  vz: ["down", 0.4],
};

function letterVelocity(words: Words): Found | null {
  const named = words.strange.find((word) => Object.hasOwn(LETTER_DIRECTIONS, word));
  if (named === undefined) return null;
  const [direction, confidence] = LETTER_DIRECTIONS[named]!;
  return { channel: `velocity.${direction}${roleOf(words) === "setpoint" ? ".setpoint" : ""}`, confidence };
}

function position(words: Words): Found | null {
  const direction = DIRECTIONS.find(([word]) => words.has(word));
  if (!words.has("position") || direction === undefined) return null;
  const setpoint = roleOf(words) === "setpoint" ? ".setpoint" : "";
  return { channel: `position.${direction[1]}${setpoint}`, sign: direction[2], confidence: 0.9 };
}

function altitude(words: Words): Found | null {
  if (!words.has("altitude") || words.has("setpoint", "speed", "rate")) return null;
  return { channel: "altitude", confidence: 0.9 };
}

function battery(words: Words): Found | null {
  if (words.numbers.length > 0 || words.has("motor", "setpoint", "speed")) return null;
  const confidence = words.has("battery") ? 0.95 : 0.7;
  const isOf = (meaning: Meaning, ...units: string[]) =>
    words.has(meaning) || (words.has("battery") && words.hasUnit(...units));
  if (isOf("voltage", "V", "mV")) return { channel: "battery.voltage", confidence };
  if (isOf("current", "A", "mA")) return { channel: "battery.current", confidence };
  return isOf("power", "W") ? { channel: "battery.power", confidence } : null;
}

function collective(words: Words): Found | null {
  if (words.numbers.length > 0) return null;
  if (words.has("collective")) return { channel: "collective.demand", confidence: 0.85 };
  if (words.has("drive") && words.words.includes("throttle")) return { channel: "collective.demand", confidence: 0.6 };
  if (!words.has("lift")) return null;
  return { channel: "collective.demand", confidence: words.has("setpoint") ? 0.8 : 0.6 };
}

function heading(words: Words): Found | null {
  return words.has("heading") && !words.has("setpoint", "rate") ? { channel: "heading", confidence: 0.9 } : null;
}

function time(words: Words): Found | null {
  return words.has("time") ? { channel: "time", confidence: 0.95 - 0.1 * (words.words.length - 1) } : null;
}
