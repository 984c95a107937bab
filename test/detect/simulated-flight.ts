import { buildFlight, type Flight } from "../../src/flight/index.ts";
import type { Channel } from "../../src/log/channel.ts";
import { channelKindOf } from "../../src/log/channels/channel-names.ts";
import { samplingOf } from "../../src/log/clock/sampling.ts";
import type { Log } from "../../src/log/index.ts";
import {
  defineScenario,
  type ScenarioInput,
  type Simulation,
  simulate,
  simulatedSeries,
} from "../../src/simulate/index.ts";

export interface SimulatedFlight {
  readonly flight: Flight;
  readonly truth: Simulation["truth"];
}

/** Flies a scenario and reads its log as a file would be read, in memory. */
export function simulatedFlight(input: ScenarioInput): SimulatedFlight {
  const { log, truth, aircraft } = simulate(defineScenario(input));
  const duration = log.time.at(-1)! - log.time[0]!;
  const channels = new Map<string, Channel>();
  for (const [name, series] of simulatedSeries(log)) {
    const { rate, gaps, longestGap, covered } = samplingOf(series.time);
    const unit = name.endsWith(".command") ? aircraft.command.unit : (channelKindOf(name)?.unit ?? "1");
    channels.set(name, {
      name,
      column: name,
      unit,
      series,
      rate,
      coverage: covered / duration,
      longestGap,
      gaps,
      stuck: [],
    });
  }
  const read: Log = {
    file: "simulated.csv",
    sha256: "00".repeat(32),
    rows: log.rows,
    isCut: false,
    duration,
    stretch: { start: 0, end: duration },
    start: null,
    channels,
    mode: null,
    mapping: {
      source: "file",
      file: null,
      sha256: null,
      time: { column: "t", unit: "s", rate: null },
      matches: [],
      questions: [],
    },
    clock: { rate: 100, repeated: 0, backwards: 0, firstBackwards: null, missing: 0, jitter: 0, gaps: [] },
    frozenFrom: null,
    empty: [],
  };
  return { flight: buildFlight(read, aircraft), truth };
}
