import * as z from "zod";
import { faultSchema } from "../faults/fault.ts";

const time = z.number().min(0);
const axis = z.enum(["roll", "pitch", "yaw"]);
const span = { start: time, end: time };

const faultTruth = z.strictObject({
  kind: z.string(),
  /** s after the first row at which the fault was applied, and at which it ended or the log did */
  applied: time,
  ended: time,
  /**
   * when the motion that the fault causes on its axis, free of noise and in its band, first exceeds three times the
   * calm in-band rms; null where the fault moves no axis or never becomes as large
   */
  visible: time.nullable(),
  /** when it has fallen below that level for a whole cycle, or the fault ended; null where it never was visible */
  faded: time.nullable(),
  axis: axis.nullable(),
  /** the loop that carries the fault's oscillation */
  loop: z.enum(["rate", "attitude", "velocity"]).nullable(),
  motor: z.int().min(1).nullable(),
  channel: z.string().nullable(),
  /** what feeds the oscillation; null where the fault is none */
  driver: z.enum(["controller", "external", "coupled", "commanded"]).nullable(),
  trend: z.enum(["growing", "sustained", "decaying"]).nullable(),
  /**
   * Hz of the fully grown motion; 1/s of its envelope while it grows. As stated or as the linearised loop has it where
   * that is exact, else measured from the visible onset on
   */
  frequency: z.number().gt(0).nullable(),
  growth: z.number().nullable(),
  /** rad/s, largest rate that the fault causes on its axis, in its band */
  amplitude: z.number().min(0).nullable(),
  /** rad/s, rms of the axis' rate in the band without the fault, over steady flight */
  calm: z.number().min(0).nullable(),
  /** mode of the linearised loop where the fault is one of its gains or delays: growth in 1/s, frequency in Hz */
  mode: z.strictObject({ growth: z.number(), frequency: z.number() }).nullable(),
  /** kinds of finding that a diagnosis is expected to make of it */
  findings: z.array(z.string()),
  /** the fault as the scenario states it, sizes and all */
  stated: faultSchema,
});

/** What really happened in a simulated flight. Times are s after the log's first row. */
export const truthSchema = z.strictObject({
  schema: z.literal("fettle/truth@1"),
  scenario: z.string(),
  seed: z.int(),
  duration: time,
  /** s at which the aircraft hit the ground, or null */
  crash: time.nullable(),
  faults: z.array(faultTruth),
  phases: z.array(
    z.strictObject({
      kind: z.enum(["ground", "climb", "hover", "cruise", "turn", "descent", "unknown"]),
      ...span,
      speed: z.number().nullable(),
      step: z.int().min(1).nullable(),
      leg: z.int().min(1).nullable(),
    }),
  ),
  /** stick inputs of the mission; a sine is an oscillation that was commanded */
  sticks: z.array(
    z.strictObject({
      axis,
      shape: z.enum(["step", "doublet", "sweep", "sine"]),
      ...span,
      frequency: z.number().gt(0).nullable(),
    }),
  ),
  /** motors at a limit of their command while flying: share of the flying time, and each stretch */
  limits: z.array(
    z.strictObject({
      motor: z.int().min(1),
      limit: z.enum(["ceiling", "floor"]),
      share: z.number().min(0).max(1),
      stretches: z.array(z.strictObject(span)),
    }),
  ),
  /** stretches with the integral term at its own limit, or pushed on by a motor at a limit */
  windups: z.array(z.strictObject({ axis, ...span, peak: z.number() })),
});

export type Truth = z.infer<typeof truthSchema>;
export type FaultTruth = Truth["faults"][number];

/** JSON Schema (draft 2020-12) of `truth.json`, made from the same source as the type. */
export function truthJsonSchema(): Record<string, unknown> {
  return {
    $id: "fettle/truth@1",
    title: "Fettle truth of a simulated flight",
    ...z.toJSONSchema(truthSchema, { target: "draft-2020-12", io: "input" }),
  };
}
