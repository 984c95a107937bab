import { fileURLToPath } from "node:url";
import { defineConfig } from "vitest/config";

// The long studies: npx vitest run --config test/studies/vitest.studies.config.ts
export default defineConfig({
  test: {
    root: fileURLToPath(new URL("../..", import.meta.url)),
    include: ["test/studies/**/*.study.ts"],
    testTimeout: 1_800_000,
    maxWorkers: 1,
    disableConsoleIntercept: true,
  },
});
