import * as z from "zod";

const seconds = z.number().min(0).finite();
const positive = z.number().gt(0).finite();
const axis = z.enum(["roll", "pitch", "yaw"]);
const motor = z.int().min(1);

/** Every fault begins at `start` (s after the first row), may end, and may take `ramp` seconds to come in full. */
const when = { start: seconds.default(0), end: seconds.optional(), ramp: seconds.default(0) };

/** The faults that can be flown. The size of each stands in SI units unless its name says otherwise. */
export const faultSchema = z.discriminatedUnion("kind", [
  /** gains of the rate loop multiplied by `factor`: above the gain margin the oscillation grows into a limit cycle */
  z.strictObject({ kind: z.literal("rate-gain"), ...when, axis, factor: positive }),
  /** the axis' output reaches the motors later by `delay` s */
  z.strictObject({ kind: z.literal("loop-delay"), ...when, axis, delay: positive.max(0.4) }),
  /** rate gains raised until the loop's dominant mode keeps only this damping ratio: gusts make it ring */
  z.strictObject({ kind: z.literal("light-damping"), ...when, axis, damping: z.number().min(0.005).max(0.3) }),
  /** a structure outside the loop that rings by itself when the air shakes it; `size` N m rms */
  z.strictObject({
    kind: z.literal("ringing-structure"),
    ...when,
    axis,
    frequency: positive,
    damping: z.number().min(0.002).max(0.5),
    size: positive,
  }),
  /** an outside moment of `size` N m at `frequency` Hz that may grow at `growth` 1/s up to `most` N m */
  z.strictObject({
    kind: z.literal("periodic-moment"),
    ...when,
    axis,
    frequency: positive,
    size: positive,
    growth: z.number().default(0),
    most: positive.optional(),
  }),
  /** eddies shed by a cylinder of `diameter` m: frequency 0.2 airspeed / diameter, `size` N m at 10 m/s */
  z.strictObject({ kind: z.literal("vortex-shedding"), ...when, axis, diameter: positive, size: positive }),
  /** `mass` kg on a line of `length` m fixed `below` m under the centre of gravity, released `swing` rad off */
  z.strictObject({
    kind: z.literal("swinging-load"),
    ...when,
    mass: positive,
    length: positive,
    below: z.number().min(0).default(0.1),
    swing: z.number().min(0).max(0.6).default(0.1),
    damping: z.number().min(0).max(0.5).default(0.01),
  }),
  /** `mass` kg fixed at x, y m from the reference point */
  z.strictObject({ kind: z.literal("payload"), ...when, mass: positive, x: z.number(), y: z.number() }),
  /** a lasting outside moment of `size` N m */
  z.strictObject({ kind: z.literal("steady-moment"), ...when, axis, size: z.number() }),
  /** a moment that grows with airspeed: `size` N m per (m/s)^2 of forward airspeed */
  z.strictObject({ kind: z.literal("airspeed-moment"), ...when, axis, size: z.number() }),
  /**
   * a boom of `mass` kg whose weight sits `reach` m ahead: it moves the centre of gravity, adds inertia, and the air
   * turns the nose by `moment` N m per (m/s)^2 and, once it points off the wind, by `slope` N m per rad and (m/s)^2
   */
  z.strictObject({
    kind: z.literal("boom"),
    ...when,
    mass: positive,
    reach: z.number(),
    moment: z.number().default(0),
    slope: z.number().default(0),
  }),
  /** more moment than the motors can hold, `share` of what hover leaves, so that the integrator winds up */
  z.strictObject({ kind: z.literal("wind-up"), ...when, axis, share: z.number().default(1.1) }),
  /** a short knock of `size` N m */
  z.strictObject({ kind: z.literal("kick"), ...when, axis, size: z.number(), seconds: positive.default(0.15) }),
  /** the centre of gravity moved by x, y m */
  z.strictObject({ kind: z.literal("cg-offset"), ...when, x: z.number(), y: z.number() }),
  /** a rotor axis tilted along the circle round the centre, positive clockwise seen from above */
  z.strictObject({ kind: z.literal("motor-tilt"), ...when, motor, degrees: z.number().min(-45).max(45) }),
  /** a motor that gives only 1 - `loss` of its thrust */
  z.strictObject({ kind: z.literal("weak-motor"), ...when, motor, loss: z.number().gt(0).max(1) }),
  /** a motor that follows its command `factor` times more slowly */
  z.strictObject({ kind: z.literal("slow-motor"), ...when, motor, factor: z.number().gt(1).max(20) }),
  /** a nick that shakes with `force` N at hover speed and costs `loss` of the thrust */
  z.strictObject({
    kind: z.literal("damaged-blade"),
    ...when,
    motor,
    force: positive,
    loss: z.number().min(0).max(0.5).default(0),
  }),
  /** gusts of a wind of `wind20` kt at 20 ft come up */
  z.strictObject({ kind: z.literal("gusts"), ...when, wind20: positive }),
  /** the gyro cannot show more than `limit` rad/s */
  z.strictObject({ kind: z.literal("rate-clipping"), ...when, limit: positive }),
  /** rows missing from `start` to `end` */
  z.strictObject({ kind: z.literal("log-gap"), ...when, end: seconds }),
  /** time stamps off by `sd` s (one standard deviation) */
  z.strictObject({ kind: z.literal("log-jitter"), ...when, sd: positive }),
  /** a channel that repeats its value */
  z.strictObject({ kind: z.literal("stuck-channel"), ...when, channel: z.string() }),
  /** every `every`-th row carries the stamp of the row before */
  z.strictObject({ kind: z.literal("repeated-stamps"), ...when, every: z.int().min(2).default(50) }),
  /** rows go on but nothing changes any more */
  z.strictObject({ kind: z.literal("frozen-end"), ...when }),
]);

export type Fault = z.infer<typeof faultSchema>;
export type FaultKind = Fault["kind"];
export type FaultOf<K extends FaultKind> = Extract<Fault, { kind: K }>;

/** A fault as it is written: what has a default may be left out. */
export type FaultInput = z.input<typeof faultSchema>;

/** The faults that touch the log alone and leave the flight as it was. */
export const LOGGING_FAULTS = ["log-gap", "log-jitter", "stuck-channel", "repeated-stamps", "frozen-end"] as const;
export type LoggingFault = FaultOf<(typeof LOGGING_FAULTS)[number]>;

export function isLoggingFault(fault: Fault): fault is LoggingFault {
  return (LOGGING_FAULTS as readonly string[]).includes(fault.kind);
}

/** 0 before the fault, 1 in full, a ramp between; 0 again after its end. */
export function strengthAt(fault: Fault, time: number): number {
  if (time < fault.start || (fault.end !== undefined && time >= fault.end)) return 0;
  return fault.ramp > 0 ? Math.min(1, (time - fault.start) / fault.ramp) : 1;
}
