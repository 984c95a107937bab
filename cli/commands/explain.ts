import { explainableKinds, explainKind, InputError, type KindGuide } from "../../src/index.ts";
import { type AddCommand, EXIT } from "./command.ts";

export const addExplain: AddCommand = (program, terminal, finish) => {
  program
    .command("explain")
    .summary("say what a kind of finding means and how it is computed")
    .description(
      "Says what a kind of finding means, how it is computed, what it cannot tell, its sources and cautions.",
    )
    .argument("[kind]", "kind of finding, as written in a report; without one, all kinds are listed")
    .addHelpText("after", "\nExamples:\n  fettle explain\n  fettle explain motor-floor")
    .action((kind: string | undefined) => {
      if (kind === undefined) terminal.out(listKinds());
      else terminal.out(guideText(kind, guideOf(kind), terminal.width));
      finish(EXIT.done);
    });
};

function guideOf(kind: string): KindGuide {
  const guide = explainKind(kind);
  if (guide !== undefined) return guide;
  throw new InputError({}, `no kind of finding is called "${kind}"`, `choose one of ${explainableKinds().join(", ")}`);
}

function listKinds(): string {
  const widest = Math.max(...explainableKinds().map((kind) => kind.length));
  return `${explainableKinds()
    .map((kind) => `${kind.padEnd(widest)}  ${explainKind(kind)!.title}`)
    .join("\n")}\n`;
}

function guideText(kind: string, guide: KindGuide, width: number): string {
  const part = (title: string, texts: readonly string[]) =>
    `\n${title}\n${texts.map((text) => wrapped(text, width - 2, "  ")).join("\n")}\n`;
  return [
    `${guide.title} (${kind})\n`,
    part("What it means", [guide.meaning]),
    part("How it is computed", [guide.method]),
    part("What it cannot tell", [guide.limits]),
    part("Sources", guide.sources),
    part("Cautions", guide.cautions),
  ].join("");
}

function wrapped(text: string, width: number, indent: string): string {
  const lines: string[] = [""];
  for (const word of text.split(/\s+/)) {
    const line = lines.at(-1)!;
    if (line !== "" && line.length + 1 + word.length > width) lines.push(word);
    else lines[lines.length - 1] = line === "" ? word : `${line} ${word}`;
  }
  return lines.map((line) => indent + line).join("\n");
}
