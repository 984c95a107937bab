import type { Channel, Span } from "../log/channel.ts";
import { countWords, secondsWords } from "../words/index.ts";

import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";

import { DASHES, LIGHT } from "./theme.ts";
import { type Layer, TIME_X, timeChart } from "./time-chart.ts";

const LANE_HEIGHT = 20;

/** Where each channel holds data, where it pauses and where it stands still: one lane a channel. */
export function chartDataQuality(drawing: Drawing): Chart | undefined {
  const { flight, whole } = drawing;
  const channels = [...flight.log.channels.values()];
  if (channels.length === 0) return undefined;
  const { frozenFrom } = flight.log;
  const span = { start: 0, end: Math.max(whole.end, flight.log.duration) };
  const rows = channels.flatMap((channel) => [
    ...present(channel, span).map((stretch) => row(channel, stretch, "data")),
    ...channel.stuck.map((stretch) => row(channel, stretch, "standing still")),
  ]);
  const title = qualityTitle(channels, frozenFrom);
  return timeChart({
    id: "data-quality",
    title,
    description: `${title} One lane per channel: a solid bar where it holds data, an empty stretch where it pauses, a pale bar where its value stands still for longer than it should.`,
    height: LANE_HEIGHT * channels.length,
    span,
    datasets: { stretches: rows, frozen: frozenFrom === null ? [] : [{ time: frozenFrom }] },
    layers: layers(channels.map(({ name }) => name)),
  });
}

function present(channel: Channel, span: Span): Span[] {
  const { time } = channel.series;
  if (time.length === 0) return [];
  const stretches: Span[] = [];
  let from = time[0]!;
  for (const gap of channel.gaps) {
    if (gap.start > from) stretches.push({ start: from, end: gap.start });
    from = Math.max(from, gap.end);
  }
  return [...stretches, { start: from, end: Math.min(time[time.length - 1]!, span.end) }];
}

function row(channel: Channel, { start, end }: Span, state: string): object {
  return { time: Number(start.toFixed(3)), until: Number(end.toFixed(3)), channel: channel.name, state };
}

function layers(names: readonly string[]): Layer[] {
  return [
    {
      data: { name: "stretches" },
      mark: { type: "bar", clip: true, height: 9, aria: false },
      encoding: {
        x: TIME_X,
        x2: { field: "until" },
        y: {
          field: "channel",
          type: "nominal",
          sort: names,
          axis: { title: null, grid: true, domain: false, ticks: false, labelLimit: 260 },
        },
        color: {
          field: "state",
          type: "nominal",
          legend: null,
          scale: { domain: ["data", "standing still"], range: [LIGHT.response, LIGHT.fourth] },
        },
      },
    },
    {
      data: { name: "frozen" },
      mark: { type: "rule", color: LIGHT.warning, strokeDash: DASHES.limit, strokeWidth: 2 },
      encoding: { x: TIME_X },
    },
  ];
}

function qualityTitle(channels: readonly Channel[], frozenFrom: number | null): string {
  if (frozenFrom !== null) return `From ${secondsWords(frozenFrom)} on nothing in the log changes any more.`;
  const gaps = channels.reduce((sum, { gaps }) => sum + gaps.length, 0);
  if (gaps === 0) return `${countWords(channels.length, "channel")} without a gap.`;
  const worst = channels.reduce((a, b) => (b.longestGap > a.longestGap ? b : a));
  return `${countWords(gaps, "gap")} in ${countWords(channels.length, "channel")}; the longest, ${secondsWords(worst.longestGap)}, in ${worst.name}.`;
}
