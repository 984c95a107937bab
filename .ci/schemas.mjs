// Writes the JSON Schemas that ship with the package, from the same sources as the types.
import { mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { comparisonJsonSchema, diagnosisJsonSchema, scenarioJsonSchema, truthJsonSchema } from "../dist/src/index.js";

const folder = join(fileURLToPath(import.meta.url), "../../dist/schemas");
mkdirSync(folder, { recursive: true });
for (const [name, schema] of Object.entries({
  diagnosis: diagnosisJsonSchema(),
  comparison: comparisonJsonSchema(),
  scenario: scenarioJsonSchema(),
  truth: truthJsonSchema(),
})) {
  writeFileSync(join(folder, `${name}.schema.json`), `${JSON.stringify(schema, null, 2)}\n`);
}
