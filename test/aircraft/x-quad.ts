import type { Aircraft, Motor } from "../../src/aircraft/index.ts";

/** The quadrotor of the worked examples: levers of 0.15 m, torque ratio 0.016 m, motors from front left, clockwise. */
export function xQuad(change: { max?: number; idle?: number } = {}): Aircraft {
  return layout(
    [
      [0.15, -0.15, "cw"],
      [0.15, 0.15, "ccw"],
      [-0.15, 0.15, "cw"],
      [-0.15, -0.15, "ccw"],
    ],
    { max: change.max ?? 8, torqueRatio: 0.016, idle: change.idle ?? 0 },
  );
}

/** An aircraft with motors at `[x, y, spin]` and a linear thrust curve, so that a command is a share of thrust. */
export function layout(
  places: readonly (readonly [number, number, Motor["spin"]])[],
  { max, torqueRatio, idle = 0 }: { max: number | null; torqueRatio: number | null; idle?: number },
): Aircraft {
  return {
    name: "test",
    mass: { value: 1.5, error: null },
    motors: places.map(([x, y, spin], i) => ({ x, y, spin, label: `motor ${i + 1}`, maxThrust: null })),
    command: { unit: "1", min: 0, max: 1, idle },
    thrust: { exponent: 1, max, torqueRatio, timeConstant: null },
    integratorLimit: {},
    notes: {},
  };
}
