// Prints how many times faster than real time a flight is simulated, at 1 kHz on one core.
// Run after a build: node test/bench/simulate-bench.mjs
import { BUILT_IN_AIRCRAFT, defineScenario, simulate } from "../../dist/src/simulate/index.js";

for (const [name, aircraft] of Object.entries(BUILT_IN_AIRCRAFT)) {
  const scenario = defineScenario({
    name: "bench",
    aircraft,
    mission: [{ do: "take-off", height: 10 }, { do: "legs", speeds: [4, 8], seconds: 20 }, { do: "land" }],
  });
  const factors = [];
  for (let run = 0; run < 5; run++) {
    const start = process.cpuUsage();
    const { truth } = simulate(scenario);
    const { user, system } = process.cpuUsage(start);
    factors.push((truth.duration * 1e6) / (user + system));
  }
  factors.sort((a, b) => a - b);
  console.log(`${name.padEnd(14)} ${factors[2].toFixed(0)} times real time (median of 5, log and truth included)`);
}
