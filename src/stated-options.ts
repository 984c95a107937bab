/** The options of a run that were given, for its record. */
export const statedOptions = (options: Readonly<Record<string, unknown>>): Record<string, unknown> =>
  Object.fromEntries(Object.entries(options).filter(([, value]) => value !== undefined));
