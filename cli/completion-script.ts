import type { Command, Option } from "commander";

export const SHELLS = ["bash", "zsh", "fish"] as const;
export type Shell = (typeof SHELLS)[number];

/** Words that may follow an option or come as an argument, by the option's name or `COMMAND ARGUMENT`. */
export type Choices = Readonly<Record<string, readonly string[]>>;

/**
 * The script that makes a shell complete the words of a program: its commands, their options, the values of those
 * that have a list of them, and file names everywhere else.
 */
export function completionScript(program: Command, choices: Choices, shell: Shell): string {
  return shell === "fish" ? fishScript(program, choices) : bashScript(program, choices, shell);
}

const commandsOf = (program: Command) => program.commands.filter((command) => command.name() !== "help");

const flagsOf = (command: Command) => command.options.map(({ long }) => long!);

const argumentChoices = (command: Command, choices: Choices): readonly string[] =>
  command.registeredArguments.flatMap((argument) => choices[`${command.name()} ${argument.name()}`] ?? []);

const takesValue = ({ required, optional }: Option) => required || optional;

/** Without a match the shell falls back on file names, which is what most options and arguments want. */
function bashScript(program: Command, choices: Choices, shell: Shell): string {
  const name = program.name();
  const commands = commandsOf(program);
  const valued = [...new Set(commands.flatMap(({ options }) => options.filter(takesValue).map(({ long }) => long!)))];
  const offers = valued.map((flag) => `    ${flag}) offer "${(choices[flag] ?? []).join(" ")}"; return ;;`);
  const cases = commands.map((command) => {
    const words = argumentChoices(command, choices).join(" ");
    return `    ${command.name()}) [[ $word == -* ]] && offer "${flagsOf(command).join(" ")} --help" || offer "${words}" ;;`;
  });
  const zsh = shell === "zsh" ? "autoload -U +X compinit bashcompinit && compinit -u && bashcompinit\n" : "";
  return `${zsh}_${name}() {
  local word="\${COMP_WORDS[COMP_CWORD]}" before="\${COMP_WORDS[COMP_CWORD-1]}"
  offer() { COMPREPLY=($(compgen -W "$1" -- "$word")); }
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    offer "${commands.map((command) => command.name()).join(" ")} --help --version"
    return
  fi
  case "$before" in
${offers.join("\n")}
  esac
  case "\${COMP_WORDS[1]}" in
${cases.join("\n")}
  esac
}
complete -o default -o bashdefault -F _${name} ${name}
`;
}

function fishScript(program: Command, choices: Choices): string {
  const name = program.name();
  const lines = commandsOf(program).flatMap((command) => {
    const within = `-n "__fish_seen_subcommand_from ${command.name()}"`;
    const words = argumentChoices(command, choices);
    return [
      `complete -c ${name} -n __fish_use_subcommand -a ${command.name()} -d ${quoted(command.summary())}`,
      ...(words.length > 0 ? [`complete -c ${name} -f ${within} -a ${quoted(words.join(" "))}`] : []),
      ...command.options.map((option) => {
        const values = choices[option.long!];
        const value = values !== undefined ? ` -x -a ${quoted(values.join(" "))}` : takesValue(option) ? " -r" : "";
        return `complete -c ${name} ${within} -l ${option.long!.slice(2)}${value} -d ${quoted(option.description)}`;
      }),
    ];
  });
  return `${lines.join("\n")}\n`;
}

const quoted = (text: string) => `'${text.replace(/[\\']/g, "\\$&")}'`;
