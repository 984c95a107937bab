import type { Channel, Span } from "../log/channel.ts";
import { countWords, secondsWords } from "../words/index.ts";

import type { Chart } from "./chart.ts";
import type { Drawing } from "./drawing.ts";
import { rounded } from "./significant.ts";
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
  const lanes = lanesOf(channels, span);
  const title = qualityTitle(channels, frozenFrom);
  return timeChart({
    id: "data-quality",
    title,
    description: `${title} One lane per channel, or for several that look the same: a solid bar where it holds data, an empty stretch where it pauses, a pale bar where its value stands still for longer than it should.`,
    height: LANE_HEIGHT * lanes.length,
    span,
    datasets: {
      stretches: lanes.flatMap(({ name, states }) => states.map((state) => ({ ...state, channel: name }))),
      frozen: frozenFrom === null ? [] : [{ time: frozenFrom }],
    },
    layers: layers(lanes.map(({ name }) => name)),
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

interface State {
  readonly time: number;
  readonly until: number;
  readonly state: "data" | "standing still";
}

/** One lane for all channels that hold data and stand still at the same times: most do, and forty bars alike hide one that differs. */
function lanesOf(channels: readonly Channel[], span: Span): { name: string; states: readonly State[] }[] {
  const alike = new Map<string, { names: string[]; states: State[] }>();
  for (const channel of channels) {
    const states = [
      ...present(channel, span).map((stretch) => stateOf(stretch, "data")),
      ...channel.stuck.map((stretch) => stateOf(stretch, "standing still")),
    ];
    const key = JSON.stringify(states);
    const lane = alike.get(key) ?? { names: [], states };
    alike.set(key, lane);
    lane.names.push(channel.name);
  }
  return [...alike.values()].map(({ names, states }) => ({
    name: names.length === 1 ? names[0]! : `${names[0]} and ${names.length - 1} more`,
    states,
  }));
}

function stateOf({ start, end }: Span, state: State["state"]): State {
  return { time: rounded(start, 3), until: rounded(end, 3), state };
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
