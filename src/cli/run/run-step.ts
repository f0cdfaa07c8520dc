import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { closeSync, mkdirSync, openSync } from 'node:fs';
import { constants } from 'node:os';
import { dirname, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { DryholdError, machineProblem } from '../../errors.ts';
import { writeWhole } from '../../store/whole-file.ts';
import { exitStatus } from '../context.ts';
import type { Step } from './declared-step.ts';

/** How a step ended. */
export interface StepEnd {
  /** Its exit status; where a signal ended it, 128 and the signal's number, as a shell says. */
  readonly status: number;
  readonly signal?: NodeJS.Signals;
  readonly seconds: number;
}

export interface RunStepOptions {
  /** What the step's paths count from. */
  readonly folder: string;
  /** Takes each line that the step says. */
  readonly onLine: (line: string) => void;
  /** Ends the step, by the signal that is its reason. */
  readonly stop: AbortSignal;
}

const command = fileURLToPath(new URL('../../../bin/dryhold.js', import.meta.url));

/** An output that is not to take the place of what was there before. */
class BrokenOff extends Error {}

/**
 * Carries out a step in a process of its own: its memory goes back with it, and whatever becomes of it is a status.
 *
 * @throws DryholdError `output-unwritable` where the file for its output, or the folder of one that it makes, cannot be written
 */
export async function runStep(step: Step, options: RunStepOptions): Promise<StepEnd> {
  const from = (path: string) => resolve(options.folder, path);
  for (const path of step.makes) makeFolder(dirname(from(path)));
  if (step.into === undefined) return runChild(step.args, options);
  const into = from(step.into);
  makeFolder(dirname(into));
  let end: StepEnd | undefined;
  await writeWhole(into, async (to) => {
    const file = openSync(to, 'w');
    try {
      end = await runChild(step.args, options, file);
    } finally {
      closeSync(file);
    }
    if (end.status > exitStatus.refused) throw new BrokenOff();
  }).catch((error: unknown) => {
    if (!(error instanceof BrokenOff)) throw error;
  });
  return end as StepEnd;
}

function makeFolder(path: string): void {
  try {
    mkdirSync(path, { recursive: true });
  } catch (error) {
    const problem = machineProblem(error);
    if (problem === undefined) throw error;
    throw new DryholdError('output-unwritable', { path, problem }, error);
  }
}

async function runChild(
  args: readonly string[],
  { folder, onLine, stop }: RunStepOptions,
  output?: number,
): Promise<StepEnd> {
  const startMs = performance.now();
  const child = spawn(process.execPath, [command, ...args], {
    cwd: folder,
    stdio: ['ignore', output ?? 'pipe', 'pipe'],
  });
  const pass = () => child.kill(stop.reason as NodeJS.Signals);
  if (stop.aborted) pass();
  else stop.addEventListener('abort', pass);
  try {
    const [[code, signal]] = await Promise.all([
      once(child, 'close') as Promise<[number | null, NodeJS.Signals | null]>,
      ...[child.stdout, child.stderr].map((stream) => stream && eachLine(stream, onLine)),
    ]);
    const seconds = Number(((performance.now() - startMs) / 1000).toFixed(1));
    if (signal === null) return { status: code ?? exitStatus.bug, seconds };
    return { status: 128 + constants.signals[signal], signal, seconds };
  } finally {
    stop.removeEventListener('abort', pass);
  }
}

async function eachLine(stream: Readable, onLine: (line: string) => void): Promise<void> {
  for await (const line of createInterface({ input: stream, crlfDelay: Infinity })) onLine(line);
}
