// All benchmarks, one after another: npm run bench
await import("./signal-bench.mjs");
await import("./simulate-bench.mjs");
await import("./diagnosis-bench.mjs");
await import("./read-bench.mjs");
