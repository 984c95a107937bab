import type { Diagnosis } from "../findings/diagnosis.ts";
import { type MeasuredNumber, plainText, turnWords } from "../words/index.ts";
import { isStepMeasure } from "./step-authority.ts";

/** What is known about one motor, one turn or one loop. */
export interface RoomRow {
  /** `motor 3`, `pitch up`, `pitch, rate` */
  readonly subject: string;
  readonly measures: ReadonlyMap<string, MeasuredNumber>;
}

export interface RoomLeft {
  readonly motors: readonly RoomRow[];
  /** each turn of the aircraft, `roll right` */
  readonly turns: readonly RoomRow[];
  /** each loop, how closely it followed: `pitch, rate` */
  readonly loops: readonly RoomRow[];
}

const MOTOR_KINDS = new Set(["motor-headroom", "motor-saturation", "motor-floor"]);
const AXIS_KINDS = new Set(["authority", "tracking"]);

/** Gathers room per motor and turn, and how closely each loop followed, from the findings and from the measures that stand for the whole flight. */
export function roomLeft({
  findings,
  measures,
  aircraft,
}: Pick<Diagnosis, "findings" | "measures" | "aircraft">): RoomLeft {
  const motors = new Map<string, Map<string, MeasuredNumber>>();
  const turns = new Map<string, Map<string, MeasuredNumber>>();
  const loops = new Map<string, Map<string, MeasuredNumber>>();
  const put = (
    rows: Map<string, Map<string, MeasuredNumber>>,
    subject: string,
    name: string,
    estimate: MeasuredNumber,
  ) => {
    const row = rows.get(subject) ?? new Map<string, MeasuredNumber>();
    rows.set(subject, row.set(name, estimate));
  };
  const take = (part: Part, kind: string) => {
    const limit = kind === "motor-saturation" ? "at ceiling" : kind === "motor-floor" ? "at floor" : undefined;
    for (const [key, value] of Object.entries(part.measures)) {
      if (!isEstimate(value) || isStepMeasure(key)) continue;
      const name = key === "share" && limit !== undefined ? limit : key;
      if (limit !== undefined && key !== "share") continue;
      if (part.motor !== undefined) put(motors, motorSubject(aircraft, part.motor), name, value);
      else if (part.direction !== undefined) {
        const way = turnWords(part.axis ?? "", part.direction) ?? `${part.axis}, ${part.direction}`;
        put(turns, way, name, value);
      } else if (part.axis !== undefined)
        put(loops, [part.axis, part.loop].filter((word) => word).join(", "), name, value);
    }
  };
  for (const part of partsOf(measures, "measures")) take(part.part, part.kind);
  for (const finding of findings) {
    if (MOTOR_KINDS.has(finding.kind) || AXIS_KINDS.has(finding.kind)) take(finding as Part, finding.kind);
  }
  return { motors: rowsOf(motors), turns: rowsOf(turns), loops: rowsOf(loops) };
}

interface Part {
  readonly motor?: number;
  readonly axis?: string;
  readonly loop?: string;
  readonly direction?: string;
  readonly measures: Readonly<Record<string, unknown>>;
}

/** Looks through the free-form measures for objects that name a motor or an axis; their estimates are the measures. */
function partsOf(value: unknown, kind: string): { part: Part; kind: string }[] {
  if (Array.isArray(value)) return value.flatMap((item) => partsOf(item, kind));
  if (typeof value !== "object" || value === null || isEstimate(value)) return [];
  const object = value as Record<string, unknown>;
  if (typeof object.motor === "number" || typeof object.axis === "string") {
    const inner = typeof object.measures === "object" && object.measures !== null ? object.measures : object;
    return [{ part: { ...object, measures: inner } as Part, kind }];
  }
  return Object.entries(object).flatMap(([key, inner]) => partsOf(inner, key));
}

/** `motor 3 (rear right)`, with the crew's word for it where the aircraft file has one. */
function motorSubject(aircraft: Diagnosis["aircraft"], motor: number): string {
  const motors: unknown = aircraft.motors;
  const label: unknown = Array.isArray(motors)
    ? (motors[motor - 1] as { label?: unknown } | undefined)?.label
    : undefined;
  return typeof label === "string" && label !== "" ? `motor ${motor} (${plainText(label, 24)})` : `motor ${motor}`;
}

function isEstimate(value: unknown): value is MeasuredNumber {
  const { value: number, unit } = (value ?? {}) as Partial<MeasuredNumber>;
  return typeof number === "number" && typeof unit === "string";
}

function rowsOf(rows: ReadonlyMap<string, ReadonlyMap<string, MeasuredNumber>>): RoomRow[] {
  return [...rows]
    .map(([subject, measures]) => ({ subject, measures }))
    .sort((a, b) => a.subject.localeCompare(b.subject, "en", { numeric: true }));
}
