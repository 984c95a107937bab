import { buildLog } from "./build-log.ts";
import type { Log } from "./log.ts";
import { type OpenOptions, openLog } from "./open-log.ts";

export interface LoadOptions extends OpenOptions {
  /** s on the log's own clock; channels are cut to the stretch between the two, whole log by default */
  readonly from?: number | undefined;
  readonly to?: number | undefined;
}

/**
 * Reads a log: its mapped columns, converted to SI, on one clock, with what is known about their sampling.
 *
 * @param file a table as `describeTable` takes it
 * @throws InputError in one line with place and remedy where the log or its map cannot be used; also where a column
 *   that the map names holds no value at all
 */
export async function loadLog(file: string, options: LoadOptions = {}): Promise<Log> {
  const { from = Number.NEGATIVE_INFINITY, to = Number.POSITIVE_INFINITY } = options;
  return buildLog(await openLog(file, options), { stretch: { from, to }, refusesEmpty: true });
}
