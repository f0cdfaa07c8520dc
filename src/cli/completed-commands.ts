import type { Argument, Command, Option } from 'commander';
import { checks } from '../checks/checks.ts';
import { skills } from '../fleet/skill.ts';
import { refrigerantDesignations } from '../physics/index.ts';
import { inputTables, outputTables } from '../records/tables.ts';

/** An option as a shell completes it. */
export interface CompletedOption {
  readonly flag: string;
  readonly about: string;
  readonly takesValue: boolean;
  /** All that its value may be; empty where that is no closed list. */
  readonly choices: readonly string[];
}

/** A command as a shell completes it. */
export interface CompletedCommand {
  readonly name: string;
  readonly about: string;
  readonly options: readonly CompletedOption[];
  /** All that its first argument may be; empty where that is no closed list. */
  readonly choices: readonly string[];
  /** Whether that may be said of each further argument, too. */
  readonly repeats: boolean;
}

/** Without the brackets of R-1234ze(E), which a shell would take for its own; the commands read either. */
const refrigerants = refrigerantDesignations.map((designation) => designation.replaceAll(/[()]/g, ''));

/** What may stand for the placeholder of an argument or option that declares no choices, since more is taken than these. */
const usualWords: Readonly<Record<string, readonly string[]>> = {
  table: [...outputTables, ...inputTables].map(({ name }) => name),
  refrigerant: [...refrigerants, 'water'],
  designation: refrigerants,
  what: [...skills, ...checks].map(({ id }) => id),
};

/** What a shell can complete, as the commands declare it: what their help shows, and no more. */
export function completedCommands(program: Command): CompletedCommand[] {
  const help = program.createHelp();
  const shown = help.visibleCommands(program);
  const names = shown.map((command) => command.name());
  return shown.map((command) => {
    const [first] = command.registeredArguments;
    return {
      name: command.name(),
      about: help.subcommandDescription(command),
      options: help.visibleOptions(command).flatMap(completedOption),
      choices: first === undefined ? [] : command.name() === 'help' ? names : choicesOf(first, first.name()),
      repeats: first?.variadic ?? false,
    };
  });
}

function completedOption(option: Option): CompletedOption[] {
  if (option.long === undefined) return [];
  const placeholder = /[<[]([\w-]+)/.exec(option.flags)?.[1];
  return [
    {
      flag: option.long,
      about: option.description,
      takesValue: placeholder !== undefined,
      choices: placeholder === undefined ? [] : choicesOf(option, placeholder),
    },
  ];
}

function choicesOf({ argChoices }: Argument | Option, placeholder: string): readonly string[] {
  return argChoices ?? usualWords[placeholder] ?? [];
}
