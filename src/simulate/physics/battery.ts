/** A battery as two numbers per instant: charge used and internal resistance. */
export interface BatterySettings {
  /** V at rest, full and empty; thrust figures of the aircraft file hold at `nominal` */
  readonly full: number;
  readonly empty: number;
  readonly nominal: number;
  /** Ah */
  readonly capacity: number;
  /** ohm */
  readonly resistance: number;
  /** W, everything but the rotors */
  readonly avionics: number;
  /** share of the rotors' shaft power in the electrical power that drives them */
  readonly efficiency: number;
  /** true: thrust at a given command falls with the square of the voltage; false: the drive makes up for it */
  readonly sag: boolean;
}

export interface Battery {
  /** V at the terminals, A drawn, W, renewed by `draw` */
  voltage: number;
  current: number;
  power: number;
  /** shaftPower in W over dt seconds */
  draw(shaftPower: number, dt: number): void;
}

/**
 * Open-circuit voltage falls linearly with the charge used; the terminals show less by current times resistance.
 * The drives ask for power, so the current solves V (V0 - V) / R = P; where the battery cannot give that much it
 * gives its most, V0 / 2 at V0^2 / 4R.
 */
export function createBattery(settings: BatterySettings): Battery {
  const { full, empty, capacity, resistance, avionics, efficiency } = settings;
  let used = 0;
  const battery: Battery = {
    voltage: full,
    current: 0,
    power: 0,
    draw(shaftPower, dt) {
      const power = avionics + shaftPower / efficiency;
      const rest = full - (full - empty) * Math.min(1, used / (capacity * 3600));
      const discriminant = Math.max(0, rest * rest - 4 * resistance * power);
      battery.voltage = (rest + Math.sqrt(discriminant)) / 2;
      battery.current = discriminant > 0 ? power / battery.voltage : rest / (2 * resistance);
      battery.power = battery.voltage * battery.current;
      used += battery.current * dt;
    },
  };
  battery.draw(0, 0);
  return battery;
}
