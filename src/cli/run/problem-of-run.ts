import type { Command } from 'commander';
import type { z } from 'zod';
import { runSchema, stepCommands, stepSchema } from './run-schema.ts';

/** A place in words: steps are counted from 1 and named. */
export function placeInRun([top, at, ...rest]: readonly PropertyKey[], steps: unknown): string {
  if (top !== 'steps' || at === undefined) return top === undefined ? 'the top' : `"${String(top)}"`;
  const name = valueAt(steps, [at, 'do']);
  const step = `step ${Number(at) + 1}${typeof name === 'string' ? ` (${name})` : ''}`;
  return rest.length === 0 ? step : `${step}, "${String(rest[0])}"`;
}

/** What is wrong first, with its place. */
export function problemOfRun(
  issue: z.core.$ZodIssue,
  json: unknown,
  program: Command,
): [where: string, problem: string] {
  const { steps } = Object(json) as { steps?: unknown };
  const [top, at] = issue.path;
  const where = placeInRun(issue.path, steps);
  if (issue.code === 'invalid_union' && top === 'steps') {
    const known = stepCommands(program).map((command) => command.name());
    return [placeInRun(issue.path.slice(0, 2), steps), `"do" is none of ${known.join(', ')}`];
  }
  if (issue.code === 'unrecognized_keys') {
    const known = top === 'steps' ? wordsOfStep(program, steps, at) : wordsOfRun(program);
    return [where, `there is no "${issue.keys[0]}" here; known: ${known.join(', ')}`];
  }
  if (issue.code === 'invalid_type' && issue.path.length > 0 && valueAt(json, issue.path) === undefined)
    return [where, 'is missing'];
  if (issue.code === 'invalid_type' && issue.expected === 'array') return [where, 'wants a list, such as ["drop"]'];
  return [where, issue.message.replace(/^Invalid (input|option): /, '')];
}

function wordsOfRun(program: Command): string[] {
  return Object.keys(runSchema(program).shape);
}

function wordsOfStep(program: Command, steps: unknown, at: PropertyKey | undefined): string[] {
  const name: unknown = valueAt(steps, [at ?? 0, 'do']);
  const command = stepCommands(program).find((each) => each.name() === name);
  return command === undefined ? [] : Object.keys(stepSchema(command).shape);
}

function valueAt(json: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>((value, name) => (Object(value) as Record<PropertyKey, unknown>)[name], json);
}
