// All benchmarks, one after another: npm run bench
await import("./signal-bench.mjs");
