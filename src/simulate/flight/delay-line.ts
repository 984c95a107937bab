/** Holds up `lanes` signals side by side by a number of steps that may change; at most `depth` steps. */
export function delayLine(lanes: number, depth: number) {
  const size = 2 ** Math.ceil(Math.log2(depth + 1));
  const memory = new Float64Array(lanes * size);
  let now = 0;
  return {
    /** as if the values had been there for ever */
    fill(values: Float64Array): void {
      for (let slot = 0; slot < size; slot++) memory.set(values, slot * lanes);
    },
    /** begins a step with these values */
    push(values: Float64Array): void {
      now = (now + 1) & (size - 1);
      for (let lane = 0; lane < lanes; lane++) memory[now * lanes + lane] = values[lane]!;
    },
    /** the value of a lane that many steps ago */
    read(lane: number, steps: number): number {
      const back = Math.min(steps, size - 1);
      return memory[((now - back) & (size - 1)) * lanes + lane]!;
    },
  };
}
