import { readFileSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { type Command, InvalidArgumentError } from 'commander';
import { DryholdError, machineProblem } from '../../errors.ts';
import { declaredStep, type GivenOptions, type Step, type StepValues } from './declared-step.ts';
import { filledIn, hasPlaceholder, knownPlaceholders, unknownPlaceholder } from './placeholders.ts';
import { placeInRun, problemOfRun } from './problem-of-run.ts';
import { runSchema, stepCommands } from './run-schema.ts';
import { areWatched, problemOfOutputs } from './watched-paths.ts';

/** What a run is looked at with, before it is known when it is run. */
const anyDay = '2026-06-30';

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
  /**
   * The steps as they are to be run on a day; `came` are the files that came, where they are told apart from what lies there.
   * They are told to each `ingest` that looks at nothing but what is watched: another one takes in all of its paths, and so does each
   * where there are none.
   */
  readonly stepsOn: (day: string, came?: readonly string[]) => readonly Step[];
}

/**
 * Reads and checks a declared run, all of it before any of it is done.
 *
 * @param program the commands as they are declared
 * @param given options of every command that hold where a step says nothing of its own
 * @throws DryholdError `file-not-found`, `file-unreadable`, `run-invalid` with the place in the file
 */
export function readRun(path: string, program: Command, given: GivenOptions): DeclaredRun {
  const wrong = (where: string, problem: string) => new DryholdError('run-invalid', { path, where, problem });
  const json = contentOf(path);
  const parsed = runSchema(program).safeParse(json);
  if (!parsed.success) throw wrong(...problemOfRun(parsed.error.issues[0], json, program));
  const { name, title, store, log, watch = [], steps } = parsed.data;
  for (const [where, text] of textsOf({ store, log, watch, steps }, steps)) {
    const unknown = unknownPlaceholder(text);
    if (unknown !== undefined) throw wrong(where, `no placeholder ${unknown}; known: ${knownPlaceholders}`);
  }
  const changing = watch.find(hasPlaceholder);
  if (changing !== undefined)
    throw wrong('"watch"', `the folders that are watched stay the same: leave the day out of ${changing}`);
  const commands = new Map(stepCommands(program).map((command) => [command.name(), command]));
  const usual = { ...(store !== undefined && { store }), ...given };
  const folder = dirname(resolve(path));
  const stepsOn = (day: string, came?: readonly string[]) =>
    steps.map((step, at) => {
      const paths = [(step as StepValues)['path'] ?? []].flat().map((each) => filledIn(String(each), day));
      const isTold = came !== undefined && step.do === 'ingest' && areWatched(paths, watch, folder);
      try {
        return declaredStep(
          commands.get(step.do) as Command,
          step as StepValues,
          { ...usual, ...(isTold && { only: came }) },
          day,
        );
      } catch (error) {
        if (!(error instanceof InvalidArgumentError)) throw error;
        throw wrong(placeInRun(['steps', at], steps), error.message);
      }
    });
  // What an option says is looked at by its own command's rules, before the first step.
  stepsOn(anyDay);
  const bad = problemOfOutputs(
    { folder, log, watch, steps: steps as (StepValues & { do: string })[], usual, commands },
    anyDay,
  );
  if (bad !== undefined) throw wrong(...bad);
  return { path, folder, name, title, watch, stepsOn, ...(log !== undefined && { log }) };
}

function contentOf(path: string): unknown {
  let content: string;
  try {
    content = readFileSync(path, 'utf8');
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') throw new DryholdError('file-not-found', { path }, error);
    const problem = machineProblem(error) ?? (error as Error).message;
    throw new DryholdError('file-unreadable', { path, problem }, error);
  }
  try {
    return JSON.parse(content.replace(/^\uFEFF/, ''));
  } catch (error) {
    const problem = (error as Error).message.split('\n')[0];
    throw new DryholdError('run-invalid', { path, where: 'the whole file', problem }, error);
  }
}

/** Every text of a value, with its place. */
function* textsOf(
  value: unknown,
  steps: readonly { do: string }[],
  path: PropertyKey[] = [],
): Generator<[string, string]> {
  if (typeof value === 'string') yield [placeInRun(path, steps), value];
  else if (typeof value === 'object' && value !== null)
    for (const [name, inner] of Object.entries(value)) yield* textsOf(inner, steps, [...path, name]);
}
