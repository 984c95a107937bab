/** What every refusal of the numerics has in common: which argument it is about. */
export abstract class SignalError extends Error {
  constructor(
    readonly argument: string,
    message: string,
  ) {
    super(`${argument}: ${message}`);
  }
}

/** An argument is of the right type, but its value breaks a rule. */
export class ArgumentError extends SignalError {
  override readonly name = "ArgumentError";
  constructor(
    argument: string,
    readonly got: unknown,
    readonly needed: string,
    remedy = "",
  ) {
    super(argument, `needs ${needed}, got ${String(got)}${remedy && `; ${remedy}`}`);
  }
}

/** NaN or an infinity stands among samples that must all be numbers. */
export class NotFiniteError extends SignalError {
  override readonly name = "NotFiniteError";
  constructor(
    argument: string,
    readonly index: number,
    readonly value: number,
  ) {
    super(argument, `every value must be finite, got ${value} at index ${index}; fill or cut out the gap first`);
  }
}

/** There are too few samples for what is asked. */
export class SignalTooShortError extends SignalError {
  override readonly name = "SignalTooShortError";
  constructor(
    argument: string,
    readonly got: number,
    readonly needed: number,
    remedy = "pass a longer signal",
  ) {
    super(argument, `needs at least ${needed} samples, got ${got}; ${remedy}`);
  }
}
