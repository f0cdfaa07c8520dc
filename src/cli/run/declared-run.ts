import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import type { z } from 'zod';
import { DryholdError } from '../../errors.ts';
import { filledIn, hasPlaceholder, knownPlaceholders, unknownPlaceholder } from './placeholders.ts';
import { runSchema, stepCommands, stepOptions, stepWords } from './run-schema.ts';

/** A declared run that was read and found right. */
export interface DeclaredRun {
  /** The file as it was named. */
  readonly path: string;
  /** What its paths count from. */
  readonly folder: string;
  readonly name: string;
  readonly title: string;
  readonly log?: string;
  readonly watch: readonly string[];
  /** The steps as they are to be run on a day. */
  readonly stepsOn: (day: string) => readonly Step[];
}

/** A step as it is to be run. */
export interface Step {
  readonly do: string;
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
export type GivenOptions = Readonly<Record<string, string | true>>;

/** Options that name what a command writes. */
const outputs = ['out', 'html'];

/** How a step says what it takes. */
type StepValues = Readonly<Record<string, string | number | boolean | readonly string[] | undefined>>;

/**
 * Reads and checks a declared run, all of it before any of it is done.
 *
 * @param program the commands as they are declared
 * @param given options of every command that hold where a step says nothing of its own
 * @throws DryholdError `file-not-found`, `run-invalid` with the place in the file
 */
export function readRun(path: string, program: Command, given: GivenOptions): DeclaredRun {
  const wrong = (where: string, problem: string) => new DryholdError('run-invalid', { path, where, problem });
  const json = contentOf(path);
  const parsed = runSchema(program).safeParse(json);
  if (!parsed.success) throw wrong(...problemOf(parsed.error.issues[0], json, program));
  const { name, title, store, log, watch = [], steps } = parsed.data;
  for (const [where, text] of textsOf({ store, log, watch, steps }, steps)) {
    const unknown = unknownPlaceholder(text);
    if (unknown !== undefined) throw wrong(where, `no placeholder ${unknown}; known: ${knownPlaceholders}`);
  }
  const changing = watch.find(hasPlaceholder);
  if (changing !== undefined)
    throw wrong('watch', `the folders that are watched stay the same: leave the day out of ${changing}`);
  const commands = new Map(stepCommands(program).map((command) => [command.name(), command]));
  const usual = { ...(store !== undefined && { store }), ...given };
  const stepsOn = (day: string) =>
    steps.map((step, at) => {
      try {
        return stepOf(commands.get(step.do) as Command, { ...usual, ...(step as StepValues) }, day);
      } catch (error) {
        if (!(error instanceof InvalidArgumentError)) throw error;
        throw wrong(placeOf(['steps', at], steps), error.message);
      }
    });
  // What an option says is looked at by its own command's rules, before the first step.
  stepsOn('2026-06-30');
  return { path, folder: dirname(resolve(path)), name, title, watch, stepsOn, ...(log !== undefined && { log }) };
}

function contentOf(path: string): unknown {
  let content: string;
  try {
    content = readFileSync(path, 'utf8');
  } catch (error) {
    throw new DryholdError('file-not-found', { path }, error);
  }
  try {
    return JSON.parse(content.replace(/^\uFEFF/, ''));
  } catch (error) {
    const problem = (error as Error).message.split('\n')[0];
    throw new DryholdError('run-invalid', { path, where: 'the whole file', problem }, error);
  }
}

/** What a command is started with, its options by `--name=value` so that no value passes for another option. */
function stepOf(command: Command, values: StepValues, day: string): Step {
  const filled = (name: string) => [values[name] ?? []].flat().map((value) => filledIn(String(value), day));
  const options = stepOptions(command).flatMap((option) => {
    const name = option.name();
    if (option.isBoolean()) return values[name] === true ? [`--${name}`] : [];
    const texts = filled(name);
    for (const text of texts) checkValue(name, () => option.parseArg?.(text, undefined));
    return texts.map((text) => `--${name}=${text}`);
  });
  const named = command.registeredArguments.flatMap((argument) => filled(argument.name()));
  const into = filled('into').at(0);
  return {
    do: command.name(),
    args: [command.name(), ...options, ...(named.length > 0 ? ['--', ...named] : [])],
    makes: outputs.flatMap(filled),
    goOn: values['or'] === 'go-on',
    ...(into !== undefined && { into }),
  };
}

function checkValue(name: string, parse: () => unknown): void {
  try {
    parse();
  } catch (error) {
    if (!(error instanceof InvalidArgumentError)) throw error;
    throw new InvalidArgumentError(`"${name}": ${error.message}`);
  }
}

/** Every text of a value, with its place. */
function* textsOf(
  value: unknown,
  steps: readonly { do: string }[],
  path: PropertyKey[] = [],
): Generator<[string, string]> {
  if (typeof value === 'string') yield [placeOf(path, steps), value];
  else if (typeof value === 'object' && value !== null)
    for (const [name, inner] of Object.entries(value)) yield* textsOf(inner, steps, [...path, name]);
}

/** A place in words: steps are counted from 1 and named. */
function placeOf([top, at, ...rest]: readonly PropertyKey[], steps: unknown): string {
  if (top !== 'steps' || at === undefined) return top === undefined ? 'the top' : `"${String(top)}"`;
  const name = Array.isArray(steps) ? (steps[Number(at)] as { do?: unknown } | undefined)?.do : undefined;
  const step = `step ${Number(at) + 1}${typeof name === 'string' ? ` (${name})` : ''}`;
  return rest.length === 0 ? step : `${step}, "${String(rest[0])}"`;
}

/** What is wrong first, with its place. */
function problemOf(issue: z.core.$ZodIssue, json: unknown, program: Command): [where: string, problem: string] {
  const steps = (json as { steps?: unknown } | null)?.steps;
  const [top, at] = issue.path;
  if (issue.code === 'invalid_union' && top === 'steps') {
    const known = stepCommands(program).map((command) => command.name());
    return [placeOf(issue.path.slice(0, 2), steps), `"do" is none of ${known.join(', ')}`];
  }
  if (issue.code === 'unrecognized_keys') {
    const command = stepCommands(program).find(
      (each) => Array.isArray(steps) && each.name() === (steps[Number(at)] as { do?: unknown } | undefined)?.do,
    );
    const takes =
      command === undefined
        ? 'name, title, store, log, watch, steps'
        : [
            ...command.registeredArguments.map((argument) => argument.name()),
            ...stepOptions(command).map((option) => option.name()),
            ...Object.keys(stepWords).slice(1),
          ].join(', ');
    return [placeOf(issue.path, steps), `there is no "${issue.keys[0]}" here; known: ${takes}`];
  }
  if (issue.code === 'invalid_type' && issue.expected === 'array')
    return [placeOf(issue.path, steps), 'wants a list, such as ["drop"]'];
  return [placeOf(issue.path, steps), issue.message.replace(/^Invalid input: /, '')];
}
