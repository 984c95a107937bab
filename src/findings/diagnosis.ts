import * as z from "zod";
import { findingSchema } from "./finding.ts";

const checkedFile = z.strictObject({ file: z.string(), sha256: z.string().regex(/^[0-9a-f]{64}$/) });

const channel = z.strictObject({
  name: z.string(),
  column: z.string(),
  unit: z.string(),
  rate: z.number(),
  coverage: z.number().min(0).max(1),
  longestGap: z.number().min(0),
});

const match = z.strictObject({
  channel: z.string(),
  column: z.string(),
  unit: z.string(),
  confidence: z.number().min(0).max(1),
  why: z.string(),
});

const phase = z.strictObject({
  kind: z.enum(["ground", "climb", "hover", "cruise", "turn", "descent", "unknown"]),
  start: z.number(),
  end: z.number(),
  speed: z.number().nullable(),
  step: z.int().min(1).nullable(),
  leg: z.int().min(1).nullable(),
});

/** Everything one diagnosis says: the contract of `diagnosis.json`. Times are s on the log's clock from its first row. */
export const diagnosisSchema = z.strictObject({
  schema: z.literal("fettle/diagnosis@1"),
  run: z.strictObject({
    version: z.string(),
    at: z.iso.datetime(),
    options: z.record(z.string(), z.unknown()),
    seed: z.int(),
    channels: checkedFile.nullable(),
    aircraft: checkedFile.nullable(),
    baseline: checkedFile.nullable(),
    baselineAircraft: checkedFile.optional(),
  }),
  log: z.strictObject({
    file: z.string(),
    sha256: z.string().regex(/^[0-9a-f]{64}$/),
    rows: z.int().min(0),
    duration: z.number().min(0),
    start: z.string().nullable(),
    channels: z.array(channel),
    /** how columns were matched where no channel map was given */
    /** columns taken by the words in their names; none where a channel map says what they are */
    matches: z.array(match),
    /** what a person should confirm before trusting numbers that depend on it */
    questions: z.array(z.strictObject({ channel: z.string(), column: z.string(), text: z.string() })),
  }),
  /** the aircraft as read from its file, or an empty object without one */
  aircraft: z.record(z.string(), z.unknown()),
  phases: z.array(phase),
  /** those that ask for something, then the notes; each in order of time */
  findings: z.array(findingSchema),
  notExamined: z.array(z.strictObject({ kind: z.string(), needs: z.array(z.string()), why: z.string().optional() })),
  measures: z.record(z.string(), z.unknown()),
});

export type Diagnosis = z.infer<typeof diagnosisSchema>;

/** JSON Schema (draft 2020-12) of `diagnosis.json`, made from the same source as the type. */
export function diagnosisJsonSchema(): Record<string, unknown> {
  return {
    $id: "fettle/diagnosis@1",
    title: "Fettle diagnosis",
    ...z.toJSONSchema(diagnosisSchema, { target: "draft-2020-12" }),
  };
}
