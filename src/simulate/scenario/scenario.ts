import * as z from "zod";
import type { Aircraft } from "../../aircraft/index.ts";
import { faultSchema } from "../faults/fault.ts";
import { missionSchema } from "../mission/mission.ts";

const positive = z.number().gt(0).finite();
const notNegative = z.number().min(0).finite();
const perAxis = z.strictObject({ roll: notNegative, pitch: notNegative, yaw: notNegative });
const once = notNegative.default(1);
const perAxisFactor = z.strictObject({ roll: once, pitch: once, yaw: once }).default({ roll: 1, pitch: 1, yaw: 1 });

const bodySchema = z.strictObject({
  /** kg, what the aircraft really weighs before any fault adds to it; the aircraft file's mass where left out */
  mass: positive.optional(),
  /** kg m^2; from mass and arm length where left out */
  inertia: z.strictObject({ roll: positive, pitch: positive, yaw: positive }).optional(),
  /** m, true centre of gravity from the reference point of the aircraft file */
  centre: z.strictObject({ x: z.number().default(0), y: z.number().default(0) }).default({ x: 0, y: 0 }),
  drag: z
    .strictObject({ linear: notNegative.optional(), heave: notNegative.optional(), area: notNegative.optional() })
    .default({}),
  pitching: z
    .strictObject({ moment: z.number().default(0), slope: z.number().default(0) })
    .default({ moment: 0, slope: 0 }),
  flapping: notNegative.optional(),
  damping: notNegative.optional(),
});

const rotorSchema = z.strictObject({
  radius: positive.optional(),
  merit: z.number().gt(0).max(1).default(0.62),
  speed: positive.optional(),
  imbalance: notNegative.optional(),
});

const batterySchema = z.strictObject({
  full: positive.optional(),
  empty: positive.optional(),
  nominal: positive.optional(),
  capacity: positive.optional(),
  resistance: notNegative.optional(),
  avionics: notNegative.default(20),
  efficiency: z.number().gt(0).max(1).default(0.82),
  sag: z.boolean().default(true),
});

const controllerSchema = z.strictObject({
  /** Hz, how often the rate and attitude loops run */
  frequency: positive.default(500),
  /** s from sensor to motor, besides filters and motor lag */
  delay: notNegative.default(0.008),
  /** output (1 = the largest moment at half thrust) per rad/s, per rad, per rad/s^2; tuned to the aircraft if left out */
  rate: z.strictObject({ p: perAxis, i: perAxis, d: perAxis }).optional(),
  /** multiplies the gains above or those that tuning finds */
  scale: z.strictObject({ p: perAxisFactor, i: perAxisFactor, d: perAxisFactor }).optional(),
  /** 1/s, attitude error to rate set point */
  attitude: perAxis.optional(),
  /** 1/s: position error to velocity, velocity error to acceleration; and 1/s of the velocity integral */
  position: notNegative.optional(),
  velocity: notNegative.optional(),
  reset: notNegative.optional(),
  /** largest integral term; the aircraft file's limit where it has one */
  limit: z.strictObject({ roll: positive, pitch: positive, yaw: positive }).optional(),
  /** `hold` stops the integrator while a motor is at a limit; `none` lets it run to its own limit */
  windup: z.enum(["none", "hold"]).default("none"),
  allocation: z.enum(["clip", "roll-pitch-priority"]).default("roll-pitch-priority"),
  /** rad */
  tilt: positive.max(1.2).default(0.6),
});

const sensorSchema = z.strictObject({
  /** rad/s rms before the filter, Hz of its second-order low-pass, rad/s largest reading */
  gyro: z
    .strictObject({ noise: notNegative.default(0.02), lowpass: positive.default(40), limit: positive.default(35) })
    .default({ noise: 0.02, lowpass: 40, limit: 35 }),
  /** m/s^2 rms */
  accelerometer: notNegative.default(0.15),
  /** rad rms of slowly wandering error */
  attitude: notNegative.default(0.003),
  /** m and m/s rms of slowly wandering error */
  position: notNegative.default(0.15),
  velocity: notNegative.default(0.05),
});

const airSchema = z.strictObject({
  density: positive.default(1.225),
  /** m/s and the degrees it comes from */
  wind: z.strictObject({ speed: notNegative.default(0), from: z.number().default(0) }).default({ speed: 0, from: 0 }),
  /** kt, wind at 20 ft that sets the strength of the gusts (15 light, 30 moderate, 45 severe) */
  gusts: notNegative.default(4),
  /** N m rms of the unsteady flow through the rotors, at hover; scaled to the aircraft where left out */
  unrest: notNegative.optional(),
});

const logSchema = z.strictObject({
  /** rows per second */
  rate: positive.max(1000).default(100),
  /** a group of channels is written on every n-th row */
  every: z
    .strictObject({
      rates: z.int().min(1).default(1),
      loops: z.int().min(1).default(2),
      attitude: z.int().min(1).default(2),
      motors: z.int().min(1).default(2),
      speeds: z.int().min(1).default(4),
      accelerations: z.int().min(1).default(1),
      navigation: z.int().min(1).default(10),
      battery: z.int().min(1).default(20),
    })
    .default({ rates: 1, loops: 2, attitude: 2, motors: 2, speeds: 4, accelerations: 1, navigation: 10, battery: 20 }),
  /** s, how late a row may be taken (its stamp is true) */
  jitter: notNegative.default(0.001),
  /** contract names, or their first parts, that are not logged */
  omit: z.array(z.string()).default([]),
});

const common = {
  name: z
    .string()
    .trim()
    .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "a name is lower-case words joined by hyphens")
    .max(60),
  story: z.string().trim().max(600).default(""),
  seed: z.int().default(1),
  /** s of one step of the simulation */
  step: z.number().min(0.0001).max(0.005).default(0.001),
  body: bodySchema.default(bodySchema.parse({})),
  rotors: rotorSchema.default(rotorSchema.parse({})),
  battery: batterySchema.default(batterySchema.parse({})),
  controller: controllerSchema.default(controllerSchema.parse({})),
  sensors: sensorSchema.default(sensorSchema.parse({})),
  air: airSchema.default(airSchema.parse({})),
  mission: missionSchema,
  faults: z.array(faultSchema).max(50).default([]),
  log: logSchema.default(logSchema.parse({})),
};

/** A scenario file: `aircraft` is a path beside it, a built-in aircraft's name, or an aircraft written out. */
export const scenarioFileSchema = z.strictObject({
  aircraft: z.union([z.string(), z.record(z.string(), z.unknown())]),
  ...common,
});

const scenarioSchema = z.object(common);

/** A flight to be flown: who flies, what, with which faults. The same scenario gives the same bytes every time. */
export type Scenario = z.infer<typeof scenarioSchema> & { readonly aircraft: Aircraft };

/** A scenario as it is written in code: what has a default may be left out. */
export type ScenarioInput = z.input<typeof scenarioSchema> & { readonly aircraft: Aircraft };

/**
 * Fills in the defaults.
 * @throws ZodError where a value cannot be (files are checked by `readScenario`, with line and key)
 */
export function defineScenario({ aircraft, ...rest }: ScenarioInput): Scenario {
  return { ...scenarioSchema.parse(rest), aircraft };
}

/** JSON Schema (draft 2020-12) of a scenario file, made from the same source as the type. */
export function scenarioJsonSchema(): Record<string, unknown> {
  return {
    $id: "fettle/scenario@1",
    title: "Fettle scenario",
    ...z.toJSONSchema(scenarioFileSchema, { target: "draft-2020-12", io: "input" }),
  };
}
