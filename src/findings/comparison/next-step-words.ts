import type { Forecast, NextStep } from "../../compare/index.ts";
import { capital, firstSentence, numberWords, percentWords, withDecimals } from "../../words/index.ts";
import { NEXT_STEP_LIMITS } from "../alert-levels.ts";
import { CAUTIONS } from "../cautions.ts";
import type { Comparison, ComparisonForecast } from "./comparison.ts";

type Judged = NonNullable<Comparison["nextStep"]>;

/** Kinds of finding in the flight after that by themselves speak against going faster. */
const DYNAMIC = [
  "oscillation",
  "upset",
  "motor-saturation",
  "motor-floor",
  "authority",
  "integrator-windup",
  "motor-response",
];

/** What is said of the next speed step: evidence against it, none here against it, or not enough data. */
export function nextStepWords(
  step: NextStep,
  after: Comparison["after"],
  motorName: (motor: number) => string,
): Judged {
  const swung = axesThatSwung(after);
  const forecasts = step.forecasts
    .filter(({ key, axis }) => key !== "damping" || !swung.includes(axis ?? ""))
    .map((forecast) => judgeForecast(forecast, step, motorName));
  const against = forecasts.filter(({ verdict }) => verdict === "against");
  const undecided = forecasts.filter(({ verdict }) => verdict === "undecided");
  const seen = after.findings.filter(({ severity, kind }) => severity === "warning" && DYNAMIC.includes(kind));
  const verdict =
    against.length + seen.length > 0
      ? "evidence-against"
      : forecasts.length === 0 || undecided.length > 0
        ? "not-enough-data"
        : "no-evidence-here";
  const speed = `${numberWords(step.speed, 3)} m/s`;
  const missing = step.missing.map((key) => `${SUBJECTS[key]}: fewer than three speeds, or not logged`);
  return {
    speed: step.speed,
    fastest: step.fastest,
    verdict,
    statement: STATEMENTS[verdict](speed),
    reasons: [
      ...seen.map(({ summary }) => `Already in the flight after: ${firstSentence(summary)}`),
      ...against.map((forecast) => forecastSentence(forecast, speed)),
      ...undecided.map((forecast) => forecastSentence(forecast, speed)),
    ],
    firstSeen: firstSeen(forecasts, step),
    notExamined: [
      ...missing,
      ...swung.map(
        (axis) =>
          `damping of ${axis}: no trend over legs is told, since the flight after already swung about this axis`,
      ),
      ...NEVER_EXAMINED,
    ],
    cautions: [...(verdict === "evidence-against" ? [CAUSE_FIRST] : []), ...STEP_CAUTIONS, CAUTIONS.authority],
    forecasts,
  };
}

/** Axes about which the flight after swung: a trend of damping over whole legs would make that look harmless. */
function axesThatSwung({ findings }: Comparison["after"]): string[] {
  const severe = findings.filter(({ kind, severity }) => kind === "oscillation" && /warning|caution/.test(severity));
  return [...new Set(severe.flatMap(({ axis }) => axis ?? []))];
}

const STATEMENTS: Readonly<Record<Judged["verdict"], (speed: string) => string>> = {
  "evidence-against": (speed) => `There is evidence against the next speed step, ${speed}.`,
  "not-enough-data": (speed) =>
    `There is not enough data to say what would happen at the next speed step, ${speed}: treat it as unknown.`,
  "no-evidence-here": (speed) =>
    `No evidence was found here against the next speed step, ${speed}. That is no clearance: much was not examined, and the decision stays with the crew.`,
};

const SUBJECTS: Readonly<Record<Forecast["key"], string>> = {
  "headroom-above": "thrust left below the ceiling",
  "headroom-below": "thrust left above the floor",
  authority: "room to turn",
  damping: "damping of each axis",
  "flutter-margin": "two modes that approach each other",
};

/** No trend in these channels shows what comes suddenly. */
const NEVER_EXAMINED = [
  "anything that comes suddenly with speed: a stall of the boom or of a rotor, flutter of a part that no channel sees, a loose screw",
  "strength of the frame, heat of motors and controllers, range of the radio",
  "stronger wind and gusts than on the day",
];

const CAUSE_FIRST =
  "With evidence against it, the next step is not what to fly next: find the cause and mend it, then fly again at speeds that flew well before.";

const STEP_CAUTIONS = [
  "A trend that goes on as flown is an assumption. Go to a new speed in small steps, on one leg, into the wind first, with height and open ground.",
  "Agree beforehand on what ends the step, who calls it, and what is done then: let the speed go, no hard stick.",
];

function judgeForecast(forecast: Forecast, step: NextStep, motorName: (motor: number) => string): ComparisonForecast {
  const { key, axis, motor, flown, next, coefficients } = forecast;
  const limit = NEXT_STEP_LIMITS[key];
  const verdict = next.value < limit ? "against" : next.low < limit ? "undecided" : "not-against";
  return {
    id: ["forecast", key, axis, motor].filter((part) => part !== undefined).join("-"),
    quantity: key,
    name: forecastName(forecast, motorName),
    ...(axis !== undefined && { axis }),
    ...(motor !== undefined && { motor }),
    flown,
    next: { value: next.value, unit: "1", low: next.low, high: next.high, level: step.level },
    limit,
    speedAtLimit: speedAtLimit(coefficients, limit, NEAR * step.speed),
    points: forecast.points.map((point) => ({ ...point })),
    trend: [...coefficients],
    verdict,
  };
}

/** m/s, steps in which the speed at the limit is looked for */
const FINE = 0.05;

/** The lowest speed at which a falling trend is below its limit. */
function speedAtLimit(coefficients: readonly number[], limit: number, most: number): number | null {
  const at = (speed: number) => coefficients.reduce((sum, c, power) => sum + c * speed ** power, 0);
  for (let speed = FINE; speed <= most; speed += FINE) {
    if (at(speed) < limit && at(speed) < at(speed - FINE)) return speed;
  }
  return null;
}

function forecastName({ key, axis, motor }: Forecast, motorName: (motor: number) => string): string {
  switch (key) {
    case "headroom-above":
      return `Thrust left below the ceiling, ${motorName(motor!)}`;
    case "headroom-below":
      return `Thrust left above the floor, ${motorName(motor!)}`;
    case "authority":
      return `Room to turn, ${axis}`;
    case "damping":
      return `Damping of the ${axis} swing`;
    case "flutter-margin":
      return `Flutter margin of two ${axis} modes, of the slowest step's`;
  }
}

/** A value in the way that its kind reads best. */
export function forecastValue(quantity: Forecast["key"], value: number): string {
  if (quantity === "damping" || quantity === "flutter-margin") return withDecimals(value, 2);
  return value <= 0 ? "none" : percentWords(value);
}

function forecastSentence({ quantity, name, flown, next, limit, verdict }: ComparisonForecast, speed: string): string {
  const words = (value: number) => forecastValue(quantity, value);
  const reach = verdict === "against" ? "comes below" : "may come below";
  return `${name} ${reach} ${words(limit)} at ${speed}: ${words(flown)} at the fastest step flown, ${words(next.value)} if the trend goes on (between ${words(next.low)} and ${words(next.high)}, 90 % interval).`;
}

/** A limit further off than this, as a factor of the next speed, is not near. */
const NEAR = 1.5;

/** The forecasts that fall, the one that meets its limit at the lowest speed first. */
function firstSeen(forecasts: readonly ComparisonForecast[], { fastest }: NextStep): string[] {
  return forecasts
    .filter(({ speedAtLimit }) => speedAtLimit !== null)
    .sort((a, b) => a.speedAtLimit! - b.speedAtLimit!)
    .slice(0, 3)
    .map((forecast) => {
      const at = forecast.speedAtLimit!;
      const when =
        at <= fastest
          ? `the trend has met its limit by the fastest step flown`
          : `the trend meets its limit at about ${numberWords(at, 2)} m/s`;
      return `${capital(SIGNS[forecast.quantity](forecast))} (${when}).`;
    });
}

const SIGNS: Readonly<Record<Forecast["key"], (forecast: ComparisonForecast) => string>> = {
  "headroom-above": ({ name }) =>
    `${motorOf(name)} at its ceiling: the aircraft sinks or leans towards that corner in gusts and in pull-outs`,
  "headroom-below": ({ name }) =>
    `${motorOf(name)} on its floor: the corner stays high after a gust or a turn, and the swing back is late`,
  authority: ({ axis }) =>
    `slow answers about ${axis}: the set point moves and the aircraft follows late or not at all`,
  damping: ({ axis }) =>
    `${axis} that swings on after a gust or a turn, each swing slower to die out than at the last step`,
  "flutter-margin": ({ axis }) => `a ${axis} swing that changes its beat as speed grows and then does not stop`,
};

const motorOf = (name: string) => name.slice(name.indexOf(", ") + 2);
