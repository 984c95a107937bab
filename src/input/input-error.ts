/** Where in the user's material something is wrong; every part that is known is given. */
export interface Place {
  readonly file?: string;
  readonly line?: number;
  /** name or number of a table's column */
  readonly column?: string | number;
  /** dotted path of a key, `motors.2.spin` */
  readonly key?: string;
}

/**
 * What the user gave cannot be used: a file, a map, an option. The message is one line that says where, what and
 * what to do; the command line prints it and leaves with status 2.
 */
export class InputError extends Error {
  override readonly name = "InputError";

  constructor(
    readonly place: Place,
    readonly problem: string,
    readonly remedy: string,
    options?: ErrorOptions,
  ) {
    super(oneLine(`${describePlace(place)}${problem}; ${remedy}`), options);
  }
}

function describePlace({ file, line, column, key }: Place): string {
  const parts = [
    file === undefined ? undefined : line === undefined ? file : `${file}:${line}`,
    key === undefined || key === "" ? undefined : `key ${key}`,
    column === undefined ? undefined : typeof column === "number" ? `column ${column}` : `column "${column}"`,
  ].filter((part) => part !== undefined);
  return parts.length === 0 ? "" : `${parts.join(", ")}: `;
}

/** Line breaks and control characters would let a file name or a cell fake a second message or steer the terminal. */
function oneLine(text: string): string {
  // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is being removed
  return text.replace(/[\u0000-\u001f\u007f-\u009f\u2028\u2029]+/g, " ").trim();
}
