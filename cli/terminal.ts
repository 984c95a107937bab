/** Where a command's words go; a test gives its own. */
export interface Terminal {
  out(text: string): void;
  err(text: string): void;
  /** characters in a line */
  readonly width: number;
  /** lines of a screen */
  readonly height: number;
  /** only on a terminal, and not where NO_COLOR is set (no-color.org) */
  readonly colour: boolean;
  /** standard error is a terminal: a progress line may be drawn and wiped */
  readonly showsProgress: boolean;
}

/** The real one. */
export function processTerminal(): Terminal {
  const { stdout, stderr, env } = process;
  const noColour = env.NO_COLOR !== undefined && env.NO_COLOR !== "";
  return {
    out: (text) => stdout.write(text),
    err: (text) => stderr.write(text),
    width: Math.max(40, Math.min(100, stdout.columns ?? 80)),
    height: Math.max(12, stdout.rows ?? 24),
    colour: stdout.isTTY === true && !noColour,
    showsProgress: stderr.isTTY === true,
  };
}
