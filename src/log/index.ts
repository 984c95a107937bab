export type { Channel, Series, Span, TextSeries } from "./channel.ts";
export { type ChannelMap, type ChannelSource, parseChannelMap, readChannelMap } from "./channels/channel-map.ts";
export { CHANNEL_NAMES, type ChannelKind, channelKindOf, nearestChannelName } from "./channels/channel-names.ts";
export { conversionOf, type Dimension, siUnitOf, unitsOf } from "./channels/units.ts";
export { type LoadOptions, loadLog } from "./load-log.ts";
export type { ClockReport, ColumnMatch, Log, Mapping, Question, TimeMatch } from "./log.ts";
export { describeTable, type Table, type TableColumn } from "./table/describe-table.ts";
export { type Columns, type Progress, readColumns } from "./table/read-columns.ts";
