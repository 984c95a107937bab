import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

/** Files of other packages that reports carry with them: the one place in this room that reads from disk. */
export interface RuntimeAssets {
  /** script that defines the global `vega` */
  readonly vega: string;
  /** script that defines the global `vegaLite` */
  readonly vegaLite: string;
  /** script that defines the global `vegaInterpreter`, which evaluates chart expressions without `eval` */
  readonly interpreter: string;
}

const resolve = createRequire(import.meta.url).resolve;

/** Reads the chart runtime that a page needs to work without a network. */
export function runtimeAssets(): RuntimeAssets {
  const built = (name: string) => inlineable(readFileSync(join(dirname(resolve(name)), `${name}.min.js`), "utf8"));
  return {
    vega: built("vega"),
    vegaLite: built("vega-lite"),
    interpreter: inlineable(asGlobal(readFileSync(resolve("vega-interpreter"), "utf8"))),
  };
}

/** Paths of the font in which stored pictures are set. */
export function fontFiles(): string[] {
  return ["DejaVuSans.ttf", "DejaVuSans-Bold.ttf"].map((file) => resolve(`dejavu-fonts-ttf/ttf/${file}`));
}

/** The interpreter comes as a module; its one import is part of `vega`, and its one export becomes a global. */
function asGlobal(module: string): string {
  const imported = /^import \{([^}]+)\} from 'vega-util';$/m.exec(module)?.[1];
  const exported = /^export \{ (\w+) as expressionInterpreter \};$/m.exec(module)?.[1];
  if (imported === undefined || exported === undefined) {
    throw new Error(
      "the installed vega-interpreter has another shape than the page expects; pin the version in package.json",
    );
  }
  const body = module.replace(/^(import|export) .*$/gm, "");
  return `const vegaInterpreter = (() => {\nconst {${imported}} = vega;\n${body}\nreturn ${exported};\n})();`;
}

/** Source maps would be requests, and a closing tag inside a string would end the script. */
function inlineable(script: string): string {
  return script.replace(/^\/\/# sourceMappingURL=.*$/gm, "").replace(/<\/(script)/gi, "<\\/$1");
}
