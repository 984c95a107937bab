import { type Document, isMap, isNode, isScalar, LineCounter, parseDocument } from "yaml";
import type * as z from "zod";
import { InputError } from "./input-error.ts";

/** A checked YAML document that still knows on which line each of its keys stands. */
export interface YamlFile<T> {
  readonly file: string;
  readonly content: T;
  /** Line, counted from 1, of the key at this path, or of its nearest parent that the file has. */
  lineOf(path: readonly PropertyKey[]): number | undefined;
}

/**
 * Parses YAML 1.2 and checks it against a schema.
 *
 * @param text the file's content
 * @param file its name, for messages only
 * @param schema what the content must look like
 * @throws InputError with line and key at the first thing that is wrong: syntax, a repeated, unknown or missing key,
 *   a value that does not fit
 */
export function parseYaml<T>(text: string, file: string, schema: z.ZodType<T>): YamlFile<T> {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, version: "1.2", prettyErrors: false });
  const broken = document.errors[0];
  if (broken !== undefined) {
    const place = { file, line: lines.linePos(broken.pos[0]).line };
    throw new InputError(place, `not valid YAML: ${lowerFirst(broken.message)}`, "mend the syntax on this line", {
      cause: broken,
    });
  }
  const lineOf = (path: readonly PropertyKey[]) => lineOfPath(document, lines, path);
  const checked = schema.safeParse(toPlain(document, file));
  if (!checked.success) {
    const issue = checked.error.issues[0]!;
    const path = issue.code === "unrecognized_keys" ? [...issue.path, issue.keys[0]!] : issue.path;
    const line = lineOf(path);
    const place = { file, ...(line === undefined ? {} : { line }), key: path.map(String).join(".") };
    throw new InputError(place, lowerFirst(issue.message), "see the file formats in the README");
  }
  return { file, content: checked.data, lineOf };
}

function toPlain(document: Document, file: string): unknown {
  try {
    return document.toJS({ maxAliasCount: 100 });
  } catch (cause) {
    const problem = `the aliases cannot be resolved: ${lowerFirst((cause as Error).message)}`;
    throw new InputError({ file }, problem, "write the values out", { cause });
  }
}

function lineOfPath(document: Document, lines: LineCounter, path: readonly PropertyKey[]): number | undefined {
  for (let depth = path.length; depth > 0; depth--) {
    const parent = depth === 1 ? document.contents : document.getIn(path.slice(0, depth - 1), true);
    const name = path[depth - 1];
    const node = isMap(parent)
      ? parent.items.find((pair) => isScalar(pair.key) && String(pair.key.value) === String(name))?.key
      : document.getIn(path.slice(0, depth), true);
    if (isNode(node) && node.range) return lines.linePos(node.range[0]).line;
  }
  return isNode(document.contents) && document.contents.range
    ? lines.linePos(document.contents.range[0]).line
    : undefined;
}

const lowerFirst = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);
