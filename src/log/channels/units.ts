/** What kind of quantity a channel is; a unit fits a channel when their dimensions are the same. */
export type Dimension =
  | "time"
  | "angle"
  | "angular-rate"
  | "length"
  | "speed"
  | "acceleration"
  | "voltage"
  | "current"
  | "power"
  | "temperature"
  | "share"
  | "control"
  | "command"
  | "text";

/** si = value * factor + offset */
export interface Conversion {
  /** unit inside the program */
  readonly unit: string;
  readonly factor: number;
  readonly offset: number;
}

/** A unit that stays as it is: motor commands and controller outputs keep the unit of the log. */
const AS_IS = null;

const DEGREE = Math.PI / 180;
const FOOT = 0.3048;
const NAUTICAL_MILE = 1852;

/** Factor to SI (or factor and offset) of every unit that a file may state, by the dimension that it fits. */
const UNITS: Readonly<Record<Dimension, Readonly<Record<string, number | readonly [number, number] | typeof AS_IS>>>> =
  {
    time: { s: 1, ms: 1e-3, us: 1e-6, ns: 1e-9 },
    angle: { rad: 1, deg: DEGREE },
    "angular-rate": { "rad/s": 1, "deg/s": DEGREE, rpm: (2 * Math.PI) / 60, Hz: 2 * Math.PI },
    length: { m: 1, mm: 1e-3, cm: 1e-2, ft: FOOT },
    speed: { "m/s": 1, "km/h": 1 / 3.6, kt: NAUTICAL_MILE / 3600, "mm/s": 1e-3 },
    acceleration: { "m/s^2": 1, g: 9.80665 },
    voltage: { V: 1, mV: 1e-3 },
    current: { A: 1, mA: 1e-3 },
    power: { W: 1 },
    temperature: { degC: 1, degF: [5 / 9, (-32 * 5) / 9] },
    share: { "1": 1, "%": 1e-2 },
    control: { "1": AS_IS, "N*m": AS_IS, "%": AS_IS, us: AS_IS, N: AS_IS },
    command: { us: AS_IS, "1": AS_IS, "%": AS_IS },
    text: {},
  };

const SI: Readonly<Record<Dimension, string>> = {
  time: "s",
  angle: "rad",
  "angular-rate": "rad/s",
  length: "m",
  speed: "m/s",
  acceleration: "m/s^2",
  voltage: "V",
  current: "A",
  power: "W",
  temperature: "degC",
  share: "1",
  control: "1",
  command: "1",
  text: "",
};

/** The units that a quantity of this dimension may be logged in. */
export const unitsOf = (dimension: Dimension): readonly string[] => Object.keys(UNITS[dimension]);

/** The unit that such a quantity has inside the program; controller outputs and commands keep the log's own instead. */
export const siUnitOf = (dimension: Dimension): string => SI[dimension];

/** Every unit that any file may state. */
export const ALL_UNITS: readonly string[] = [...new Set(Object.values(UNITS).flatMap((units) => Object.keys(units)))];

/** How a value in `unit` becomes SI; null where the unit does not fit the dimension. */
export function conversionOf(unit: string, dimension: Dimension): Conversion | null {
  const units = UNITS[dimension];
  const found = Object.hasOwn(units, unit) ? units[unit] : undefined;
  if (found === undefined) return null;
  if (found === AS_IS) return { unit, factor: 1, offset: 0 };
  const [factor, offset] = typeof found === "number" ? [found, 0] : found;
  return { unit: SI[dimension], factor, offset };
}
