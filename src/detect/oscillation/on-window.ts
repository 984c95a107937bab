import type { Channel } from "../../log/index.ts";
import type { Uniform } from "../../log/resample.ts";
import { uniformPieces } from "../../log/uniform-pieces.ts";

/**
 * A channel at given, even times: count values from `start` s on, `rate` Hz, on straight lines between its samples,
 * low-passed first where it is faster.
 * @returns null where it has a gap there or does not reach that far
 */
export function onWindow(
  channel: Pick<Channel, "series" | "gaps" | "rate">,
  start: number,
  rate: number,
  count: number,
): Float64Array | null {
  const end = start + (count - 1) / rate;
  const slack = 1 / channel.rate;
  if (channel.gaps.some((gap) => gap.start < end && gap.end > start)) return null;
  const own = Math.min(channel.rate, rate);
  const around = { start: start - MARGIN, end: end + MARGIN };
  const pieces = uniformPieces(channel as Channel, around, own);
  const piece = pieces.find(
    ({ start: first, values }) => first <= start + 2 * slack && first + (values.length - 1) / own >= end - 2 * slack,
  );
  if (piece === undefined) return null;
  return onTimes(piece, start, rate, count);
}

/** Values on straight lines between those of a piece, and level beyond its ends. */
function onTimes(piece: Uniform, start: number, rate: number, count: number): Float64Array {
  const { values } = piece;
  const result = new Float64Array(count);
  const last = values.length - 1;
  for (let i = 0; i < count; i++) {
    const place = Math.min(last, Math.max(0, (start + i / rate - piece.start) * piece.rate));
    const left = Math.floor(place);
    const right = Math.min(last, left + 1);
    result[i] = values[left]! + (place - left) * (values[right]! - values[left]!);
  }
  return result;
}

/** s, read on either side so that a low-pass has settled */
const MARGIN = 1;
