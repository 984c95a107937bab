import type { Mapping } from "../log.ts";
import { channelKindOf } from "./channel-names.ts";
import { unitsOf } from "./units.ts";

/** What else a map to edit should tell. */
export interface FormatMapOptions {
  /** columns of the log that no channel is made of; listed in a comment */
  readonly unmatched?: readonly string[];
  /** name of the log that the map is written for; goes into the first line */
  readonly log?: string;
}

/**
 * Writes a channel map (YAML 1.2) to read, correct and pass back in: what a person should confirm stands on top as comments, and
 * each channel says in a comment how sure it is and which units it may have.
 */
export function formatChannelMap(mapping: Mapping, { unmatched = [], log }: FormatMapOptions = {}): string {
  const lines = [
    `# Channel map${log === undefined ? "" : ` for logs such as ${comment(log)}`}. Read it, mend it, then pass it with --channels.`,
    "# value = sign * (cell * scale + offset), in the unit given; sign is 1 or -1.",
    ...mapping.questions.map(({ text }) => `# To confirm: ${comment(text)}`),
    "",
    timeLine(mapping),
    "channels:",
    ...mapping.matches.map(channelLine),
  ];
  if (mapping.matches.length === 0) lines[lines.length - 1] = "channels: {}";
  if (unmatched.length > 0) {
    lines.push("", "# Columns that no channel is made of:", ...unmatched.map((name) => `#   ${quoted(name)}`));
  }
  return `${lines.join("\n")}\n`;
}

function timeLine({ time }: Mapping): string {
  if (time.column === null) return `time: { rate: ${time.rate} }`;
  const unit = unitsOf("time").includes(time.unit) ? `, unit: ${time.unit}` : "";
  return `time: { column: ${quoted(time.column)}${unit} }`;
}

function channelLine({
  channel,
  column,
  unit,
  sign,
  scale,
  offset,
  confidence,
  why,
}: Mapping["matches"][number]): string {
  const entries = [`column: ${quoted(column)}`];
  if (unit !== "") entries.push(`unit: ${/^[1%]$/.test(unit) ? `"${unit}"` : unit}`);
  if (sign !== 1) entries.push(`sign: ${sign}`);
  if (scale !== 1) entries.push(`scale: ${scale}`);
  if (offset !== 0) entries.push(`offset: ${offset}`);
  const units = unitsOf(channelKindOf(channel)?.dimension ?? "text");
  const sure = confidence < 1 ? `${Math.round(confidence * 100)} % sure: ${comment(why)}` : "";
  const choice = confidence < 1 && units.length > 1 ? `; unit: ${units.join(" or ")}` : "";
  return `  ${channel}: { ${entries.join(", ")} }${sure === "" ? "" : `  # ${sure}${choice}`}`;
}

/** JSON's quoting is also YAML's; names that need none stay bare. */
function quoted(name: string): string {
  const isPlain = /^[A-Za-z][A-Za-z0-9_]*( [A-Za-z0-9_]+)*$/.test(name) && !/^(true|false|null)$/i.test(name);
  // YAML takes U+0085 and U+2028 for line breaks; JSON does not.
  return isPlain ? name : JSON.stringify(name).replace(/[\u007f-\u009f\u2028\u2029\ufeff]/g, escaped);
}

const escaped = (character: string) => `\\u${character.charCodeAt(0).toString(16).padStart(4, "0")}`;

/** A line break in a name would end the comment and start a key. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is being removed
const comment = (text: string) => text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, " ");
