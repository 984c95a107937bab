import * as z from "zod";

/** The flight-deck alert levels of 14 CFR 25.1322 (FAA AC 25.1322-1), read for the ground, mildest first. */
export const ALERT_LEVELS = ["note", "advisory", "caution", "warning"] as const;
export type AlertLevel = (typeof ALERT_LEVELS)[number];

const estimate = z.strictObject({
  value: z.number(),
  unit: z.string(),
  low: z.number().optional(),
  high: z.number().optional(),
  level: z.number().gt(0).lt(1).optional(),
});

const motorEstimate = estimate.extend({ motor: z.int().min(1) });

/** One finding of a diagnosis: evidence with its words. The schema is the contract of `diagnosis.json`. */
export const findingSchema = z.strictObject({
  id: z.string().regex(/^[a-z0-9]+(-[a-z0-9]+)*$/),
  kind: z.string(),
  severity: z.enum(ALERT_LEVELS),
  confidence: z.number().min(0).max(1),
  start: z.number(),
  end: z.number(),
  axis: z.string().optional(),
  loop: z.string().optional(),
  driver: z.string().optional(),
  trend: z.string().optional(),
  direction: z.string().optional(),
  evidence: z.string().optional(),
  pattern: z.string().optional(),
  /** a second cause that the numbers ask for together with the pattern */
  besides: z.string().optional(),
  alternatives: z.array(z.string()).optional(),
  channel: z.string().optional(),
  motor: z.int().min(1).optional(),
  motors: z.array(z.int().min(1)).optional(),
  group: z.string().optional(),
  leads: z.boolean().optional(),
  /** the stretches in which it happened, where it is not the whole of start..end; near ones joined where there are many */
  stretches: z.array(z.strictObject({ start: z.number(), end: z.number() })).optional(),
  summary: z.string(),
  meaning: z.string(),
  cautions: z.array(z.string()),
  next: z.array(z.string()),
  measures: z.record(z.string(), z.union([estimate, z.array(motorEstimate)])),
  method: z.string(),
  sources: z.array(z.string()),
  charts: z.array(z.string()),
});

export type Finding = z.infer<typeof findingSchema>;
