import type { Finding } from "../findings/finding.ts";
import { channelOf } from "../flight/flight.ts";
import type { Channel, Span } from "../log/channel.ts";
import { uniformPieces } from "../log/uniform-pieces.ts";
import { shortTimeSpectra } from "../signal/index.ts";
import { capital, numberWords, secondsWords } from "../words/index.ts";
import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { findingWindow } from "./finding-window.ts";
import { oscillationOf } from "./oscillation-of.ts";
import { significant } from "./significant.ts";
import { LIGHT } from "./theme.ts";
import { limitLayers, TIME_X, timeChart } from "./time-chart.ts";

/**
 * Frames hold about this many cycles, six to eleven: enough to tell frequencies apart, few enough to see when they
 * change. A power of two of samples is transformed in a third of the time of another number.
 */
const CYCLES = 8;
const MOST_FRAMES = 90;
const MOST_BINS = 44;
/** dB below the strongest cell that are still drawn. */
const DEPTH = 36;

/**
 * Where in time and frequency the motion of an axis lies, around a finding that names a frequency: the darker, the
 * stronger. The finding's frequency is marked.
 * @returns undefined without a frequency, or where the axis's rate is not logged for long enough
 */
export function chartSpectrogram(drawing: Drawing, finding: Finding): Chart | undefined {
  const { frequency } = finding.measures;
  const channel = channelOf(drawing.flight, `rate.${finding.axis}.measured`);
  if (channel === undefined || frequency === undefined || Array.isArray(frequency) || !(frequency.value > 0))
    return undefined;
  const window = findingWindow(finding, drawing.extent);
  const cells = cellsOf(channel, window, frequency.value);
  if (cells.length === 0) return undefined;
  const axis = capital(finding.axis ?? "");
  const title = `${axis} rate from ${secondsWords(window.start)} to ${secondsWords(window.end)}: the swing at ${numberWords(frequency.value)} Hz among all frequencies${harmonicsOf(drawing, finding)}.`;
  const top = Math.max(...cells.map(({ high }) => high));
  return timeChart({
    id: `${finding.id}-spectrum`,
    title,
    description: `${title} Time runs to the right, frequency upwards; the darker a cell, the stronger the motion there, over ${DEPTH} decibels. A dotted line marks the finding's frequency.`,
    height: 150,
    span: window,
    datasets: { cells },
    layers: [
      {
        data: { name: "cells" },
        mark: { type: "rect", clip: true, color: LIGHT.response, aria: false },
        encoding: {
          x: TIME_X,
          x2: { field: "until" },
          y: {
            field: "low",
            type: "quantitative",
            scale: { domain: [0, top], nice: false, zero: true },
            axis: { title: `${finding.axis} rate: frequency (Hz)`, grid: false, tickCount: 5 },
          },
          y2: { field: "high" },
          opacity: { field: "strength", type: "quantitative", legend: null, scale: { domain: [0, 1], range: [0, 1] } },
        },
      },
      ...limitLayers(frequency.value, `${numberWords(frequency.value)} Hz`, frequency.value > 0.85 * top),
    ],
  });
}

/** Multiples of its frequency that the axis swung at as well. */
function harmonicsOf({ flight }: Drawing, finding: Finding): string {
  const multiples = finding.kind === "oscillation" ? (oscillationOf(flight, finding)?.harmonics ?? []) : [];
  return multiples.length === 0 ? "" : `, with its ${multiples.map((n) => `${n}-fold`).join(" and ")} frequency`;
}

interface Cell {
  readonly time: number;
  readonly until: number;
  readonly low: number;
  readonly high: number;
  /** 0 (DEPTH below the strongest) to 1 */
  readonly strength: number;
}

function cellsOf(channel: Channel, window: Span, frequency: number): Cell[] {
  const pieces = uniformPieces(channel, window);
  const wanted = 2 ** Math.round(Math.log2((CYCLES / frequency) * channel.rate));
  const longest = Math.max(0, ...pieces.map(({ values }) => values.length));
  const segmentLength = Math.min(wanted, 2 * Math.floor(longest / 6));
  if (segmentLength < 16) return [];
  const kept = pieces.filter(({ values }) => values.length >= segmentLength);
  const overlap = Math.max(0, Math.min(0.9, 1 - longest / (MOST_FRAMES * segmentLength)));
  const spectra = shortTimeSpectra(
    kept.map(({ values }) => values),
    channel.rate,
    {
      segmentLength,
      overlap,
      startTimes: kept.map(({ start }) => start),
    },
  );
  const step = ((1 - overlap) * segmentLength) / channel.rate;
  const width = spectra.frequency[1]!;
  const bins = Math.min(spectra.frequency.length, Math.ceil((4 * frequency) / width), MOST_BINS);
  const cells: (Cell & { power: number })[] = [];
  for (const [frame, middle] of spectra.time.entries()) {
    for (let bin = 1; bin < bins; bin++) {
      const power = 10 * Math.log10(Math.max(1e-30, spectra.density.get(frame, bin)));
      const [time, until] = [middle - step / 2, middle + step / 2].map((at) => significant(at, 6)) as [number, number];
      cells.push({
        time,
        until,
        low: significant((bin - 0.5) * width),
        high: significant((bin + 0.5) * width),
        strength: 0,
        power,
      });
    }
  }
  const strongest = cells.reduce((most, { power }) => Math.max(most, power), Number.NEGATIVE_INFINITY);
  return cells
    .map(({ power, ...cell }) => ({ ...cell, strength: significant(Math.max(0, 1 + (power - strongest) / DEPTH), 2) }))
    .filter(({ strength }) => strength > 0.02);
}
