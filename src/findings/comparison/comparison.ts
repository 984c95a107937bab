import * as z from "zod";
import { ALERT_LEVELS } from "../finding.ts";

const sha256 = z.string().regex(/^[0-9a-f]{64}$/);
const checkedFile = z.strictObject({ file: z.string(), sha256 });
const id = z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/);

/** Every interval is a 95 % interval unless `level` says otherwise. */
const estimate = z.strictObject({
  value: z.number(),
  unit: z.string(),
  low: z.number(),
  high: z.number(),
  level: z.number().gt(0).lt(1).optional(),
});

const flight = z.strictObject({
  log: z.strictObject({
    file: z.string(),
    sha256,
    rows: z.int().min(0),
    duration: z.number().min(0),
    start: z.string().nullable(),
  }),
  channels: checkedFile.nullable(),
  aircraft: checkedFile.nullable(),
  notes: z.record(z.string(), z.string()),
  /** how speed through the air is known, and the mean wind (m/s, the way it blows) with its standard error */
  air: z.strictObject({
    by: z.enum(["logged", "lean"]).nullable(),
    wind: z.strictObject({ north: z.number(), east: z.number(), error: z.number() }).nullable(),
  }),
  /** cautions and warnings of the flight's own diagnosis */
  findings: z.array(
    z.strictObject({
      id,
      kind: z.string(),
      axis: z.string().optional(),
      severity: z.enum(ALERT_LEVELS),
      start: z.number(),
      summary: z.string(),
    }),
  ),
});

const legs = z.array(
  z.strictObject({
    start: z.number(),
    end: z.number(),
    direction: z.union([z.literal(1), z.literal(-1)]).nullable(),
    /** m/s over ground and through the air */
    ground: z.number().nullable(),
    air: z.number().nullable(),
    power: z.number().nullable(),
  }),
);

/** One condition that both flights flew: hover, or a speed step. */
const condition = z.strictObject({
  id,
  kind: z.enum(["hover", "cruise", "flight"]),
  name: z.string(),
  /** m/s */
  speed: z.strictObject({ before: z.number().nullable(), after: z.number().nullable() }),
  legs: z.strictObject({ before: legs, after: legs }),
});

const row = z.strictObject({
  quantity: z.string(),
  name: z.string(),
  axis: z.string().optional(),
  loop: z.string().optional(),
  motor: z.int().min(1).optional(),
  condition: id,
  replicates: z.strictObject({ before: z.int(), after: z.int() }),
  scale: z.enum(["ratio", "difference"]),
  unit: z.string(),
  verdict: z.enum([
    "better",
    "worse",
    "changed",
    "perhaps-better",
    "perhaps-worse",
    "perhaps-changed",
    "no-difference",
    "not-enough-data",
  ]),
  word: z.string(),
  before: estimate.optional(),
  after: estimate.optional(),
  /** after over before less 1 (unit 1) for ratios, else after less before */
  difference: estimate.optional(),
  /** smallest difference that so much data shows four times out of five */
  detectable: z.number().optional(),
  degreesOfFreedom: z.number().optional(),
  p: z.number().optional(),
  /** p corrected for the comparisons of the table (Benjamini and Hochberg) */
  adjusted: z.number().optional(),
  /** how wind was taken out */
  wind: z.enum(["air-curve", "air-slope", "direction", "none"]).optional(),
});

const table = z.strictObject({ id, title: z.string(), rows: z.array(row) });

const forecast = z.strictObject({
  id,
  quantity: z.enum(["headroom-above", "headroom-below", "authority", "damping", "flutter-margin"]),
  name: z.string(),
  axis: z.string().optional(),
  motor: z.int().min(1).optional(),
  /** at the fastest step flown, and at the next with its 90 % interval */
  flown: z.number(),
  next: estimate,
  /** below this it speaks against the step */
  limit: z.number(),
  /** m/s at which the trend meets the limit; null where it does not up to one and a half times the next speed */
  speedAtLimit: z.number().nullable(),
  points: z.array(z.strictObject({ speed: z.number(), value: z.number() })),
  /** the trend: coefficients of the powers 0, 1, 2, ... of speed in m/s */
  trend: z.array(z.number()),
  verdict: z.enum(["against", "undecided", "not-against"]),
});

const nextStep = z.strictObject({
  speed: z.number(),
  fastest: z.number(),
  verdict: z.enum(["evidence-against", "not-enough-data", "no-evidence-here"]),
  statement: z.string(),
  reasons: z.array(z.string()),
  /** what would be seen first if it goes wrong */
  firstSeen: z.array(z.string()),
  notExamined: z.array(z.string()),
  cautions: z.array(z.string()),
  forecasts: z.array(forecast),
});

/** Everything one comparison says: the contract of `comparison.json`. SI units; times are s on each log's own clock. */
export const comparisonSchema = z.strictObject({
  schema: z.literal("fettle/comparison@1"),
  run: z.strictObject({
    version: z.string(),
    at: z.iso.datetime(),
    options: z.record(z.string(), z.unknown()),
    seed: z.int(),
  }),
  /** the aircraft as read from the file of the flight after, or an empty object without one */
  aircraft: z.record(z.string(), z.unknown()),
  before: flight,
  after: flight,
  /** what to read first, most important first */
  statements: z.array(z.strictObject({ level: z.enum(ALERT_LEVELS), topic: z.string(), text: z.string() })),
  conditions: z.array(condition),
  tables: z.array(table),
  mission: z
    .strictObject({
      parts: z.int(),
      before: z.strictObject({ power: z.number(), seconds: z.number() }),
      after: z.strictObject({ power: z.number(), seconds: z.number() }),
      difference: estimate.nullable(),
    })
    .nullable(),
  nextStep: nextStep.nullable(),
  /** what was not compared, and why */
  leftOut: z.array(z.strictObject({ subject: z.string(), why: z.string() })),
  methods: z.array(z.strictObject({ title: z.string(), text: z.string(), sources: z.array(z.string()) })),
  cautions: z.array(z.string()),
});

export type Comparison = z.infer<typeof comparisonSchema>;
export type ComparisonTable = Comparison["tables"][number];
export type ComparisonRow = ComparisonTable["rows"][number];
export type ComparisonForecast = NonNullable<Comparison["nextStep"]>["forecasts"][number];

/** JSON Schema (draft 2020-12) of `comparison.json`, made from the same source as the type. */
export function comparisonJsonSchema(): Record<string, unknown> {
  return {
    $id: "fettle/comparison@1",
    title: "Fettle comparison",
    ...z.toJSONSchema(comparisonSchema, { target: "draft-2020-12" }),
  };
}
