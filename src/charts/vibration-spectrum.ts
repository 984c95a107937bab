import type { Finding } from "../findings/finding.ts";
import { channelOf, type Flight } from "../flight/flight.ts";
import type { Channel } from "../log/channel.ts";
import { uniformPieces } from "../log/uniform-pieces.ts";
import { mean, powerSpectralDensity, SignalTooShortError } from "../signal/index.ts";
import { displayUnit, numberWords, plainText } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { motorWords } from "./motor-words.ts";
import { significant } from "./significant.ts";
import { DASHES, LIGHT } from "./theme.ts";
import { type Layer, staticChart } from "./time-chart.ts";

/** s of one segment: lines come out a hertz or two wide, as wide as rotors wander */
const SEGMENT = 1;

/** bins, equivalent noise bandwidth of a Hann window (Harris 1978, table 1) */
const HANN_WIDTH = 1.5;

/**
 * The amplitude of a sensor's swings at every frequency, in the air, with the frequency of the motor that the finding
 * names and its multiples marked, as far as the sample rate shows them; other rotors whose speeds are logged as ticks.
 * @returns undefined without motor, channel and frequency, or where the channel holds no second of flight
 */
export function chartVibrationSpectrum({ flight }: Drawing, finding: Finding): Chart | undefined {
  const { motor, measures } = finding;
  const { frequency } = measures;
  const channel = channelOf(flight, finding.channel ?? "");
  if (motor === undefined || channel === undefined || frequency === undefined || Array.isArray(frequency)) return;
  const spectrum = spectrumOf(flight, channel);
  if (spectrum === null) return undefined;
  const { label } = displayUnit(channel.unit);
  const highest = channel.rate / 2;
  const name = motorWords(flight, motor);
  const marks = [1, 2, 3]
    .map((multiple) => ({
      frequency: significant(multiple * frequency.value),
      words: multiple === 1 ? name : `${multiple} times that`,
    }))
    .filter((mark) => mark.frequency < highest);
  const title = `What shakes ${plainText(channel.name, 40)}: the line at ${numberWords(frequency.value)} Hz follows ${name}.`;
  return staticChart({
    id: `${finding.id}-vibration`,
    title,
    description: `${title} Frequency runs to the right up to half the sample rate, ${numberWords(highest)} Hz, amplitude upwards. Marked: ${marks.map((mark) => `${mark.words} at ${numberWords(mark.frequency)} Hz`).join("; ")}.`,
    height: 200,
    datasets: { spectrum, marks, others: otherRotors(flight, motor, highest) },
    layers: layers(label, highest),
  });
}

interface SpectrumRow {
  readonly frequency: number;
  readonly amplitude: number;
}

/** A sine of amplitude A peaks at A: density times twice the width of a line under the window. */
function spectrumOf({ airborne }: Flight, channel: Channel): SpectrumRow[] | null {
  const segmentLength = 2 * Math.round((SEGMENT * channel.rate) / 2);
  const pieces = airborne.flatMap((span) => uniformPieces(channel, span).map(({ values }) => values));
  const { factor } = displayUnit(channel.unit);
  try {
    const { frequency, density } = powerSpectralDensity(pieces, channel.rate, { segmentLength });
    const width = HANN_WIDTH * frequency[1]!;
    return Array.from(frequency, (f, bin) => ({
      frequency: significant(f),
      amplitude: significant(factor * Math.sqrt(2 * density[bin]! * width)),
    })).slice(1);
  } catch (cause) {
    if (cause instanceof SignalTooShortError) return null;
    throw cause;
  }
}

function otherRotors(flight: Flight, motor: number, highest: number): { frequency: number }[] {
  return (flight.aircraft?.motors ?? []).flatMap((_, i) => {
    const speed = channelOf(flight, `motor.${i + 1}.speed`);
    if (i + 1 === motor || speed === undefined) return [];
    const { time, values } = speed.series;
    const inAir = values.filter((_, k) =>
      flight.airborne.some(({ start, end }) => time[k]! >= start && time[k]! <= end),
    );
    const turns = inAir.length === 0 ? 0 : mean(inAir) / (2 * Math.PI);
    return turns > 0 && turns < highest ? [{ frequency: significant(turns) }] : [];
  });
}

function layers(unit: string, highest: number): Layer[] {
  const x = {
    field: "frequency",
    type: "quantitative",
    scale: { domain: [0, significant(highest)], nice: false },
    axis: { title: "frequency (Hz)", grid: false, tickCount: 10 },
  };
  const y = {
    field: "amplitude",
    type: "quantitative",
    axis: { title: `amplitude (${unit})`, grid: true, tickCount: 5 },
  };
  return [
    {
      data: { name: "others" },
      mark: { type: "tick", orient: "vertical", size: 14, thickness: 2, color: LIGHT.faint, y: "height", aria: false },
      encoding: { x },
    },
    {
      data: { name: "spectrum" },
      mark: { type: "line", color: LIGHT.response, aria: false },
      encoding: { x, y },
    },
    {
      data: { name: "marks" },
      mark: { type: "rule", color: LIGHT.limit, strokeDash: DASHES.limit, strokeWidth: 1.4, aria: false },
      encoding: { x },
    },
    {
      data: { name: "marks" },
      mark: { type: "text", align: "left", baseline: "top", dx: 4, y: 2, color: LIGHT.limit, aria: false },
      encoding: { x, text: { field: "words", type: "nominal" } },
    },
  ];
}
