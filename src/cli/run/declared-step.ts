import { type Command, InvalidArgumentError } from 'commander';
import { filledIn } from './placeholders.ts';
import { stepOptions } from './run-schema.ts';

/** A step as it is to be run. */
export interface Step {
  readonly do: string;
  /** What it does, in words. */
  readonly summary: string;
  /** What a person would type for it. */
  readonly typed: string;
  /** What the command is started with. */
  readonly args: readonly string[];
  /** A file for what it prints. */
  readonly into?: string;
  /** Files and folders that it makes: they may lie in folders that are not there yet. */
  readonly makes: readonly string[];
  /** Whether the steps after it are run even where it breaks off. */
  readonly goOn: boolean;
}

/** Options of every command that were given to the run itself: they hold where a step says nothing. */
export type GivenOptions = Readonly<Record<string, string | true | readonly string[]>>;

/** Options that name what a command writes. */
export const outputs: readonly string[] = ['out', 'html', 'pdf'];

/** What a run gives to its steps by itself, and no person would type. */
const own: ReadonlySet<string> = new Set(['wait', 'only']);

/** What a step says, by name. */
export type StepValues = Readonly<Record<string, string | number | boolean | readonly string[] | undefined>>;

/**
 * A step as it is to be run: its options by `--name=value`, so that no value passes for another option.
 *
 * @param step what the step says
 * @param usual options that hold where it says nothing
 * @param day the day that its placeholders mean, ISO 8601
 * @throws InvalidArgumentError where its command does not take what an option says
 */
export function declaredStep(command: Command, step: StepValues, usual: GivenOptions, day: string): Step {
  const values: StepValues = { ...usual, ...step };
  const filled = (name: string) =>
    [values[name] ?? []].flat().map((value) => {
      // Files are called as they are.
      const isName = own.has(name) && !(name in step);
      return isName ? String(value) : filledIn(String(value), day);
    });
  const options = stepOptions(command).flatMap((option): { name: string; text?: string }[] => {
    const name = option.name();
    if (option.isBoolean()) return values[name] === true ? [{ name }] : [];
    return filled(name).map((text) => {
      checkValue(name, () => option.parseArg?.(text, undefined));
      return { name, text };
    });
  });
  const named = command.registeredArguments.flatMap((argument) => filled(argument.name()));
  const into = filled('into').at(0);
  // How long a run waits for the store, and which files came, is its own affair, unless the step says so.
  const written = options.filter(({ name }) => name in step || !own.has(name));
  return {
    do: command.name(),
    summary: command.summary(),
    typed: [
      'dryhold',
      command.name(),
      ...named.map(quoted),
      ...written.map(({ name, text }) => [`--${name}`, ...(text === undefined ? [] : [quoted(text)])].join(' ')),
      ...(into === undefined ? [] : ['>', quoted(into)]),
    ].join(' '),
    args: [
      command.name(),
      ...options.map(({ name, text }) => (text === undefined ? `--${name}` : `--${name}=${text}`)),
      ...(named.length > 0 ? ['--', ...named] : []),
    ],
    makes: outputs.flatMap(filled),
    goOn: step['or'] === 'go-on',
    ...(into !== undefined && { into }),
  };
}

/** A word as it is typed. */
function quoted(word: string): string {
  return /^[\w./:@%+,=-]+$/.test(word) ? word : `"${word}"`;
}

function checkValue(name: string, parse: () => unknown): void {
  try {
    parse();
  } catch (error) {
    if (!(error instanceof InvalidArgumentError)) throw error;
    throw new InvalidArgumentError(`"${name}": ${error.message}`);
  }
}
