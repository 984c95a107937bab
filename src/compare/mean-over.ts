import { alignChannels } from "../detect/index.ts";
import type { Channel, Span } from "../log/index.ts";

/** Fewer samples than this make no mean worth the name. */
const FEWEST_SAMPLES = 3;

/**
 * Mean over a stretch of something made of one or more channels, sample by sample of the first; samples in a gap of
 * any of them are left out.
 * @returns null where the stretch holds fewer than three samples
 */
export function meanOver(
  channels: readonly [Channel, ...Channel[]],
  span: Span,
  of: (...values: number[]) => number,
): number | null {
  const { time, values } = alignChannels(channels, [span]);
  if (time.length < FEWEST_SAMPLES) return null;
  let sum = 0;
  for (let i = 0; i < time.length; i++) sum += of(...values.map((series) => series[i]!));
  return sum / time.length;
}
