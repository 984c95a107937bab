export { InputError, type Place } from "./input-error.ts";
export { readText, unreadable } from "./read-text.ts";
export { parseYaml, type YamlFile } from "./yaml-file.ts";
