const DEGREES_PER_RADIAN = 180 / Math.PI;

/** How a unit is shown to people: values are multiplied by `factor` and followed by `label`. */
export interface DisplayUnit {
  readonly label: string;
  readonly factor: number;
}

/** Degrees for radians (angular acceleration per moment among them), microseconds with their proper sign; every other unit as it is. */
export function displayUnit(unit: string): DisplayUnit {
  switch (unit) {
    case "rad":
      return { label: "deg", factor: DEGREES_PER_RADIAN };
    case "rad/s":
      return { label: "deg/s", factor: DEGREES_PER_RADIAN };
    // one over a moment of inertia: rad/s² over N·m
    case "1/(kg*m^2)":
      return { label: "deg/s²/(N·m)", factor: DEGREES_PER_RADIAN };
    case "us":
      return { label: "µs", factor: 1 };
    case "degC":
      return { label: "°C", factor: 1 };
    case "N*m":
      return { label: "N·m", factor: 1 };
    case "m/s^2":
      return { label: "m/s²", factor: 1 };
    case "1":
      return { label: "", factor: 1 };
    default:
      return { label: unit, factor: 1 };
  }
}
