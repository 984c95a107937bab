import type { Aircraft } from "../../aircraft/index.ts";
import type { LogTable } from "./log-table.ts";

/** The channel map of a simulated log, as YAML. */
export function channelMapText({ columns }: LogTable): string {
  const width = Math.max(...columns.map(({ channel }) => channel.length)) + 1;
  const line = (channel: string, rest: string) => `  ${`${channel}:`.padEnd(width)} { ${rest} }`;
  return [
    "time: { column: time_s, unit: s }",
    "channels:",
    ...columns.map(({ channel, column, unit }) => line(channel, `column: ${column}, unit: ${quoteUnit(unit)}`)),
    line("mode", "column: mode"),
    "",
  ].join("\n");
}

/** An aircraft file, as YAML. */
export function aircraftText(aircraft: Aircraft): string {
  const { name, mass, motors, command, thrust, integratorLimit, notes } = aircraft;
  const measured = ({ value, error }: { value: number; error: number | null }) =>
    error === null ? String(value) : `{ value: ${value}, error: ${error} }`;
  const lines = [`name: ${JSON.stringify(name)}`];
  if (mass !== null) lines.push(`mass: ${measured(mass)}`);
  lines.push("motors:");
  for (const { x, y, spin, label, maxThrust } of motors) {
    const most = maxThrust === null ? "" : `, max: ${maxThrust}`;
    lines.push(`  - { x: ${x}, y: ${y}, spin: ${spin}, label: ${JSON.stringify(label)}${most} }`);
  }
  const { unit, min, max, idle } = command;
  lines.push(`command: { unit: ${quoteUnit(unit)}, min: ${min}, max: ${max}, idle: ${idle} }`);
  const curve = [
    thrust.exponent === null ? null : `  exponent: ${thrust.exponent}`,
    thrust.max === null ? null : `  max: ${thrust.max}`,
    thrust.torqueRatio === null ? null : `  torque-ratio: ${thrust.torqueRatio}`,
    thrust.timeConstant === null ? null : `  time-constant: ${measured(thrust.timeConstant)}`,
  ].filter((entry) => entry !== null);
  if (curve.length > 0) lines.push("thrust:", ...curve);
  const limits = Object.entries(integratorLimit).map(([axis, value]) => `${axis}: ${value}`);
  if (limits.length > 0) lines.push(`integrator-limit: { ${limits.join(", ")} }`);
  const words = Object.entries(notes).map(([key, value]) => `${JSON.stringify(key)}: ${JSON.stringify(value)}`);
  if (words.length > 0) lines.push(`notes: { ${words.join(", ")} }`);
  return `${lines.join("\n")}\n`;
}

/** Units that YAML would not read as the text they are. */
function quoteUnit(unit: string): string {
  return /^[a-zA-Z/^0-9]*[a-zA-Z][a-zA-Z/^0-9]*$/.test(unit) ? unit : JSON.stringify(unit);
}
