import * as z from "zod";
import { InputError, parseYaml, readText, type YamlFile } from "../input/index.ts";
import type { Aircraft, Motor } from "./aircraft.ts";

const positive = z.number().gt(0).finite();
const measured = z.union([
  positive.transform((value) => ({ value, error: null as number | null })),
  z.strictObject({ value: positive, error: z.number().min(0) }),
]);

const motorSchema = z.strictObject({
  x: z.number(),
  y: z.number(),
  spin: z.enum(["cw", "ccw"]),
  label: z.string().trim().min(1).max(80).optional(),
  max: positive.optional(),
});

const aircraftSchema = z.strictObject({
  name: z.string().trim().min(1).max(200),
  mass: measured.optional(),
  motors: z.array(motorSchema).min(3, "an aircraft needs at least 3 motors"),
  command: z.strictObject({
    unit: z.enum(["us", "1", "%"], `the unit of a motor command is us, "1" or %`),
    min: z.number(),
    max: z.number(),
    idle: z.number().optional(),
  }),
  thrust: z
    .strictObject({
      exponent: z.number().min(0.5).max(4).optional(),
      max: positive.optional(),
      "torque-ratio": positive.optional(),
      "time-constant": measured.optional(),
    })
    .optional(),
  "integrator-limit": z
    .strictObject({ roll: positive.optional(), pitch: positive.optional(), yaw: positive.optional() })
    .optional(),
  notes: z.record(z.string(), z.union([z.string(), z.number(), z.boolean()]).transform(String)).optional(),
});

type AircraftContent = z.infer<typeof aircraftSchema>;

/**
 * Reads an aircraft file (`*.aircraft.yaml`).
 *
 * @throws InputError with line and key where it is missing, not YAML, or describes no possible aircraft
 */
export async function readAircraft(file: string): Promise<Aircraft> {
  return parseAircraft(await readText(file), file);
}

/** The same from text; `file` is used in messages only. */
export function parseAircraft(text: string, file: string): Aircraft {
  const yaml = parseYaml(text, file, aircraftSchema as unknown as z.ZodType<AircraftContent>);
  checkCommand(yaml);
  checkLayout(yaml);
  const { name, mass, motors, command, thrust, notes } = yaml.content;
  return {
    name,
    mass: mass ?? null,
    motors: motors.map(
      (motor): Motor => ({
        x: motor.x,
        y: motor.y,
        spin: motor.spin,
        label: motor.label ?? describePosition(motor),
        maxThrust: motor.max ?? null,
      }),
    ),
    command: { unit: command.unit, min: command.min, max: command.max, idle: command.idle ?? command.min },
    thrust: {
      exponent: thrust?.exponent ?? null,
      max: thrust?.max ?? null,
      torqueRatio: thrust?.["torque-ratio"] ?? null,
      timeConstant: thrust?.["time-constant"] ?? null,
    },
    integratorLimit: withoutUndefined(yaml.content["integrator-limit"] ?? {}),
    notes: notes ?? {},
  };
}

function checkCommand({ file, content: { command }, lineOf }: YamlFile<AircraftContent>): void {
  if (command.max <= command.min) {
    const place = placeOf(file, lineOf, ["command", "max"]);
    throw new InputError(place, `max ${command.max} is not above min ${command.min}`, "swap or mend them");
  }
  const { idle } = command;
  if (idle !== undefined && (idle < command.min || idle >= command.max)) {
    const place = placeOf(file, lineOf, ["command", "idle"]);
    throw new InputError(place, `idle ${idle} is not within ${command.min}..${command.max}`, "give the armed floor");
  }
}

/** Without leverage about both roll and pitch nothing could fly: most likely columns or units were mixed up. */
function checkLayout({ file, content: { motors }, lineOf }: YamlFile<AircraftContent>): void {
  for (const axis of ["x", "y"] as const) {
    const positions = motors.map((motor) => motor[axis]);
    const reach = Math.max(...positions) - Math.min(...positions);
    if (reach === 0) {
      const place = placeOf(file, lineOf, ["motors"]);
      throw new InputError(place, `all motors share one ${axis}`, "give each motor's place in m from the centre");
    }
    if (reach > 100) {
      const place = placeOf(file, lineOf, ["motors"]);
      throw new InputError(place, `the motors lie ${reach} m apart in ${axis}`, "give positions in metres");
    }
  }
}

function placeOf(file: string, lineOf: (path: readonly PropertyKey[]) => number | undefined, path: string[]) {
  const line = lineOf(path);
  return { file, key: path.join("."), ...(line === undefined ? {} : { line }) };
}

function describePosition({ x, y }: { x: number; y: number }): string {
  const along = x > 0.01 ? "front" : x < -0.01 ? "rear" : "";
  const across = y > 0.01 ? "right" : y < -0.01 ? "left" : "";
  return [along, across].filter(Boolean).join(" ") || "centre";
}

function withoutUndefined<K extends string>(
  record: Partial<Record<K, number | undefined>>,
): Partial<Record<K, number>> {
  return Object.fromEntries(Object.entries(record).filter(([, value]) => value !== undefined)) as Partial<
    Record<K, number>
  >;
}
