import { createHash } from "node:crypto";
import * as z from "zod";
import { InputError, type Place, parseYaml, readText, type YamlFile } from "../../input/index.ts";
import { channelKindOf, nearestChannelName } from "./channel-names.ts";
import { nearestWord } from "./nearest-word.ts";
import { ALL_UNITS, conversionOf, unitsOf } from "./units.ts";

/** Where one channel comes from: value = sign * (cell * scale + offset), then from `unit` to SI. */
export interface ChannelSource {
  /** the log's own column name, exactly as written */
  readonly column: string;
  readonly unit: string;
  readonly sign: 1 | -1;
  readonly scale: number;
  /** in `unit` */
  readonly offset: number;
}

/** The clock of a log: a column of stamps, or rows at a steady rate in Hz. */
export type TimeSource = { readonly column: string; readonly unit: string | null } | { readonly rate: number };

/** A channel map (`*.channels.yaml`), read and checked, still without a log. */
export interface ChannelMap {
  readonly file: string;
  /** SHA-256 of the map's text, lower-case hex */
  readonly sha256: string;
  readonly time: TimeSource;
  readonly channels: ReadonlyMap<string, ChannelSource>;
  /** where a key stands in the file, for messages about it */
  placeOf(...path: string[]): Place;
}

const number = z.number("has to be a number").finite();
const sourceSchema = z.strictObject({
  column: z.string("the name of a column is needed; put names such as 1 or null in quotes"),
  unit: z.union([z.string(), z.number().transform(String)], "a unit is needed").optional(),
  sign: z.union([z.literal(1), z.literal(-1)], "sign is 1 or -1").optional(),
  scale: number.refine((scale) => scale !== 0, "a scale of 0 leaves nothing").optional(),
  offset: number.optional(),
});
const timeSchema = z.union(
  [
    z.strictObject({
      column: z.string(),
      unit: z.string().optional(),
    }),
    z.strictObject({ rate: z.number().gt(0).finite() }),
  ],
  "time is { column: NAME, unit: s } or { rate: HZ }",
);
const mapSchema = z.strictObject({
  time: timeSchema,
  channels: z.record(z.string(), sourceSchema),
});

type MapContent = z.infer<typeof mapSchema>;

/**
 * Reads a channel map.
 *
 * @throws InputError with line and key where it is missing, not YAML, names an unknown channel or unit, or a unit that
 *   does not fit its channel
 */
export async function readChannelMap(file: string): Promise<ChannelMap> {
  return parseChannelMap(await readText(file), file);
}

/** The same from text; `file` is used in messages only. */
export function parseChannelMap(text: string, file: string): ChannelMap {
  const yaml = parseYaml(text, file, mapSchema as unknown as z.ZodType<MapContent>);
  const placeOf = (...path: string[]) => {
    const line = yaml.lineOf(path);
    return { file, key: path.join("."), ...(line === undefined ? {} : { line }) };
  };
  return {
    file,
    sha256: createHash("sha256").update(text).digest("hex"),
    time: checkedTime(yaml, placeOf),
    channels: new Map(
      Object.entries(yaml.content.channels).map(([name, source]) => [name, checkedSource(name, source, placeOf)]),
    ),
    placeOf,
  };
}

type PlaceOf = ChannelMap["placeOf"];

function checkedTime({ content: { time } }: YamlFile<MapContent>, placeOf: PlaceOf): TimeSource {
  if ("rate" in time) return { rate: time.rate };
  const { column, unit } = time;
  if (unit !== undefined && conversionOf(unit, "time") === null) {
    throw unfitUnit(unit, "time", unitsOf("time"), placeOf("time", "unit"));
  }
  return { column, unit: unit ?? null };
}

function checkedSource(name: string, source: MapContent["channels"][string], placeOf: PlaceOf): ChannelSource {
  const kind = channelKindOf(name);
  if (kind === null) {
    const meant = nearestChannelName(name);
    const remedy = meant === null ? "see the channel names in the README" : `did you mean ${meant}?`;
    throw new InputError(placeOf("channels", name), "no such channel", remedy);
  }
  const { column, sign = 1, scale = 1, offset = 0 } = source;
  if (kind.dimension === "text") return { column, unit: "", sign: 1, scale: 1, offset: 0 };
  const { unit } = source;
  if (unit === undefined) {
    const remedy = `add unit: ${unitsOf(kind.dimension).map(inYaml).join(" or ")}`;
    throw new InputError(placeOf("channels", name), "states no unit", remedy);
  }
  if (conversionOf(unit, kind.dimension) === null) {
    throw unfitUnit(unit, name, unitsOf(kind.dimension), placeOf("channels", name, "unit"));
  }
  return { column, unit, sign, scale, offset };
}

function unfitUnit(unit: string, name: string, fitting: readonly string[], place: Place): InputError {
  if (ALL_UNITS.includes(unit)) {
    return new InputError(place, `${unit} does not fit ${name}`, `use ${fitting.map(inYaml).join(" or ")}`);
  }
  const meant = nearestWord(unit, fitting);
  const remedy = meant === null ? `use ${fitting.map(inYaml).join(" or ")}` : `did you mean ${inYaml(meant)}?`;
  return new InputError(place, `unknown unit "${unit}"`, remedy);
}

/** YAML reads a bare 1 as a number and trips over a bare %. */
const inYaml = (unit: string) => (/^[1%]$/.test(unit) ? `"${unit}"` : unit);
