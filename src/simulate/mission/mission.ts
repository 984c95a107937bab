import * as z from "zod";

const seconds = z.number().gt(0).max(3600);
const positive = z.number().gt(0).finite();

const taskSchema = z.discriminatedUnion("do", [
  /** the log begins in the air, hovering at `height` m; only as the first task */
  z.strictObject({ do: z.literal("aloft"), height: positive.max(500) }),
  /** motors idle on the ground */
  z.strictObject({ do: z.literal("wait"), seconds }),
  /** up to `height` m at `climb` m/s */
  z.strictObject({ do: z.literal("take-off"), height: positive.max(500), climb: positive.default(1.5) }),
  z.strictObject({ do: z.literal("hover"), seconds }),
  /** up and down a field: for each speed (m/s) `pairs` times a leg of `seconds` along `heading` and one back */
  z.strictObject({
    do: z.literal("legs"),
    speeds: z.array(positive.max(40)).min(1),
    seconds: seconds.default(12),
    heading: z.number().default(0),
    pairs: z.int().min(1).default(1),
    /** m to the side between legs */
    spacing: z.number().min(0).default(8),
    /** m/s^2, the most while speeding up and slowing down */
    acceleration: positive.default(1.6),
    /** turns the nose with `turn` deg/s at the end of each leg */
    turn: positive.default(60),
  }),
  /** stick inputs on one axis, in degrees of tilt (roll, pitch) or degrees per second (yaw); the others stay level */
  z.strictObject({
    do: z.literal("sticks"),
    axis: z.enum(["roll", "pitch", "yaw"]),
    shape: z.enum(["step", "doublet", "sweep", "sine"]),
    degrees: z.number(),
    seconds: seconds.default(4),
    /** Hz: a sweep runs from `from` to `to`, a sine stays at `from` */
    from: positive.default(0.3),
    to: positive.default(3),
  }),
  /** back to the ground at `descent` m/s */
  z.strictObject({ do: z.literal("land"), descent: positive.default(1) }),
]);

/** What the aircraft is asked to do, in order. It starts on the ground unless told otherwise, and may end in the air. */
export const missionSchema = z
  .array(taskSchema)
  .min(1)
  .max(200)
  .refine((tasks) => tasks.slice(1).every((task) => task.do !== "aloft"), "aloft can only be the first task")
  .refine((tasks) => tasks.some((task) => task.do !== "aloft"), "a mission needs a task that takes time");

export type Task = z.infer<typeof taskSchema>;
export type TaskOf<K extends Task["do"]> = Extract<Task, { do: K }>;
