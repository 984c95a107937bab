import type { Channel, Span } from "../../log/channel.ts";
import { resample } from "../../log/resample.ts";
import { median, powerSpectralDensity, SignalTooShortError } from "../../signal/index.ts";

/** A narrow line in a spectrum. */
export interface SpectralLine {
  /** Hz */
  readonly frequency: number;
  /** its density over what is usual beside it */
  readonly clearness: number;
}

/** s, about, of one segment: lines a hertz or two wide, as wide as rotors wander in hover */
const SEGMENT = 1;
/** Hz; slower than any rotor turns, and where the aircraft itself moves */
const LOWEST = 10;
/** Hz to both sides in which the usual density is taken */
const NEIGHBOURS = 12;

/**
 * Lines that stand out of the spectrum of a channel in the air, clearest first.
 * @param highest share of the sample rate up to which lines are looked for
 * @param clear least density over its neighbours'
 */
export function spectralLines(
  channel: Channel,
  spans: readonly Span[],
  { highest, clear }: { highest: number; clear: number },
): SpectralLine[] {
  const pieces = resample(channel.series, channel.rate, channel.gaps).flatMap(({ start, rate, values }) =>
    spans.map((span) =>
      values.subarray(
        Math.max(0, Math.ceil((span.start - start) * rate)),
        Math.max(0, Math.floor((span.end - start) * rate)),
      ),
    ),
  );
  // A power of two: other lengths take several times as long.
  const segmentLength = 2 ** Math.round(Math.log2(SEGMENT * channel.rate));
  try {
    const { frequency, density } = powerSpectralDensity(pieces, channel.rate, { segmentLength });
    return linesOf(frequency, density, highest * channel.rate)
      .filter(({ clearness }) => clearness >= clear)
      .sort((a, b) => b.clearness - a.clearness);
  } catch (cause) {
    if (cause instanceof SignalTooShortError) return [];
    throw cause;
  }
}

function linesOf(frequency: Float64Array, density: Float64Array, highest: number): SpectralLine[] {
  const beside = Math.round(NEIGHBOURS / frequency[1]!);
  const lines: SpectralLine[] = [];
  for (let bin = 2; bin < density.length - 2; bin++) {
    const value = density[bin]!;
    if (frequency[bin]! < LOWEST || frequency[bin]! > highest) continue;
    if ([-2, -1, 1, 2].some((by) => density[bin + by]! > value)) continue;
    const usual = median(density.subarray(Math.max(1, bin - beside), bin + beside + 1));
    if (usual > 0) lines.push({ frequency: frequency[bin]!, clearness: value / usual });
  }
  return lines;
}
