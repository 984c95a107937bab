import type { Finding } from "../findings/finding.ts";
import { channelOf } from "../flight/flight.ts";
import type { Uniform } from "../log/resample.ts";
import { uniformPieces } from "../log/uniform-pieces.ts";
import { analyticSignal, butterworth, decimate, filterZeroPhase } from "../signal/index.ts";
import { capital, displayUnit, measureWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingWindow } from "./finding-window.ts";
import { oscillationOf } from "./oscillation-of.ts";
import { significant } from "./significant.ts";
import { stretchRows } from "./stretch-rows.ts";
import { DASHES } from "./theme.ts";
import { lineLayer, stretchLayer, timeChart } from "./time-chart.ts";

/** Half-width of the band whose size is drawn, as a factor to either side of the finding's frequency. */
const BAND = 1.5;
const MOST_POINTS = 500;

/**
 * How large an axis swung over time at the frequency of an oscillation, on a logarithmic scale, on which steady growth
 * is a straight line: the envelope, and the growth that was fitted.
 * @returns undefined where the rate is not logged
 */
export function chartOscillationEnvelope(drawing: Drawing, finding: Finding): Chart | undefined {
  const { frequency, growth } = finding.measures;
  const channel = channelOf(drawing.flight, `rate.${finding.axis}.measured`);
  if (channel === undefined || frequency === undefined || Array.isArray(frequency)) return undefined;
  const span = findingWindow(finding, drawing.extent);
  const { label: unit, factor } = displayUnit(channel.unit);
  const rows = uniformPieces(channel, span).flatMap((piece) => envelopeRows(piece, frequency.value, factor));
  if (rows.length === 0) return undefined;
  const fit = fitOf(drawing, finding, factor);
  const axis = capital(finding.axis ?? "");
  const trend = growth === undefined || Array.isArray(growth) ? "" : `, growth rate ${measureWords("growth", growth)}`;
  const title = `${axis} at ${measureWords("frequency", frequency)}: size of the swing over time${trend}.`;
  const y = {
    field: "value",
    type: "quantitative",
    scale: { type: "log", nice: true },
    axis: { title: `${finding.axis} swing (${unit})`, tickCount: 4 },
  };
  return timeChart({
    id: `${finding.id}-envelope`,
    title,
    description: `${title} A logarithmic scale, so that steady growth is a straight line; the fitted growth is dashed.`,
    height: 130,
    span,
    datasets: { marked: stretchRows([finding], drawing.whole), envelope: rows, ...(fit && { fit }) },
    layers: [
      stretchLayer("marked"),
      lineLayer("envelope", "response", y),
      ...(fit ? [lineLayer("fit", "limit", y, DASHES.limit)] : []),
    ],
    readout: [{ data: "envelope", label: "size of the swing", unit }],
    key: [
      { label: "size of the swing", colour: "response" },
      ...(fit ? [{ label: "fitted growth", colour: "limit" as const, dash: DASHES.limit }] : []),
    ],
  });
}

interface Point {
  readonly time: number;
  readonly value: number | null;
}

/** Samples to the cycle that are enough to draw its envelope. */
const SAMPLES_PER_CYCLE = 16;

function envelopeRows({ start, rate: own, values: logged }: Uniform, frequency: number, factor: number): Point[] {
  const every = Math.max(1, Math.floor(own / (SAMPLES_PER_CYCLE * frequency)));
  if (logged.length < 2 * (own / frequency)) return [];
  const { values: piece, sampleRate: rate } = decimate(logged, own, every);
  const cycle = Math.round(rate / frequency);
  if (piece.length < Math.max(48, 2 * cycle) || BAND * frequency > 0.49 * rate) return [];
  const filter = butterworth(2, [frequency / BAND, BAND * frequency], rate);
  const padding = Math.min(piece.length - 1, 3 * cycle);
  const { re, im } = analyticSignal(filterZeroPhase(filter, piece, { padding }));
  const step = Math.max(1, Math.floor(piece.length / MOST_POINTS));
  const rows: Point[] = [];
  for (let i = 0; i < piece.length; i += step) {
    rows.push({
      time: significant(start + i / rate, 6),
      value: significant(Math.max(1e-4, factor * Math.hypot(re[i]!, im[i]!))),
    });
  }
  return [...rows, { time: significant(start + piece.length / rate, 6), value: null }];
}

/** The growth as it was fitted, two points of a straight line. */
function fitOf({ flight }: Drawing, finding: Finding, factor: number): Point[] | undefined {
  const found = oscillationOf(flight, finding);
  if (found === undefined) return undefined;
  const { start, end, amplitude } = found.fit;
  const last = amplitude * Math.exp(found.measures.growth!.value * (end - start));
  return [
    { time: significant(start, 6), value: significant(amplitude * factor) },
    { time: significant(end, 6), value: significant(last * factor) },
  ];
}
