import { existsSync } from 'node:fs';
import { DryholdError } from '../../errors.ts';
import { durationText } from '../../units/display.ts';
import { exitStatus } from '../context.ts';
import { countOf } from '../ingest-text.ts';
import type { DeclaredRun } from './declared-run.ts';
import type { Step } from './declared-step.ts';
import type { RunLog } from './run-log.ts';
import { runStep, type StepEnd } from './run-step.ts';

/** What came of a step; without status and seconds where it was not run. */
export interface StepResult {
  readonly step: number;
  readonly do: string;
  readonly status: number | null;
  readonly seconds: number | null;
}

/** What came of all steps, once. */
export interface RoundResult {
  readonly steps: readonly StepResult[];
  /** The most serious status of the steps. */
  readonly status: number;
}

export interface RunRoundOptions {
  readonly log: RunLog;
  /** The day that placeholders mean, ISO 8601. */
  readonly day: string;
  /** Files that came, where `ingest` is to take in no others. */
  readonly came?: readonly string[] | undefined;
  /** Ends the round, by the signal that is its reason. */
  readonly stop: AbortSignal;
}

/** A step that went well and took no longer says nothing of its own [s]. */
const longS = 10;

/** Carries out the steps, one after the other, and says in the log what came of each. */
export async function runRound(run: DeclaredRun, { log, day, came, stop }: RunRoundOptions): Promise<RoundResult> {
  const steps = run.stepsOn(day);
  const results: StepResult[] = [];
  const startMs = performance.now();
  let isBroken = false;
  for (const [at, planned] of steps.entries()) {
    const left = steps.length - at - 1;
    const result = { step: at + 1, do: planned.do };
    if (isBroken || stop.aborted) {
      results.push({ ...result, status: null, seconds: null });
      continue;
    }
    // What came may have gone again while the steps before were under way.
    const step = run.stepsOn(
      day,
      came?.filter((path) => existsSync(path)),
    )[at];
    log.forget();
    log.note(`step ${at + 1} of ${steps.length}: ${step.typed} (${step.summary})`);
    const end = await endOf(run, step, log, stop);
    const { status, seconds } = end;
    isBroken = status > exitStatus.refused && (!step.goOn || stop.aborted);
    results.push({ ...result, status, seconds });
    const took = seconds < 10 ? `${seconds.toFixed(1)} s` : durationText(seconds);
    if (status !== exitStatus.done)
      log.alarm(`  ${endText(step, end, stop, run.path)} (${took})${afterText(status, isBroken, left)}`);
    else if (seconds >= longS || step.into !== undefined)
      log.note(`  done in ${took}${step.into === undefined ? '' : `: ${step.into}`}`);
  }
  log.forget();
  const status = Math.max(0, ...results.map((each) => each.status ?? 0));
  const text = `${run.name}: ${roundText(results, status, stop)}, in ${durationText((performance.now() - startMs) / 1000)}`;
  if (status === exitStatus.done && !stop.aborted) log.note(text);
  else log.alarm(text);
  return { steps: results, status };
}

/** A step whose process cannot be had, or whose output cannot be written, has broken off as well. */
async function endOf({ folder }: DeclaredRun, step: Step, log: RunLog, stop: AbortSignal): Promise<StepEnd> {
  try {
    return await runStep(step, { folder, stop, onLine: (line) => log.note(`    ${line}`) });
  } catch (error) {
    if (!(error instanceof DryholdError || (error instanceof Error && 'syscall' in error))) throw error;
    log.note(`    ${error.message}`);
    return { status: exitStatus.unreadable, seconds: 0 };
  }
}

/** How a step ended that did not end well, and what to do. */
function endText(step: Step, { status, signal }: Omit<StepEnd, 'seconds'>, stop: AbortSignal, path: string): string {
  if (signal !== undefined)
    return stop.aborted
      ? `stopped by ${signal}; what was under way is undone`
      : `ended from outside by ${signal}, by somebody or by a machine that is short of memory; what was under way is undone: run it again`;
  if (status === exitStatus.refused)
    return `done, but something was refused or found (status 1): look ${step.into === undefined ? 'at the lines above' : `into ${step.into}`}`;
  if (status === exitStatus.usage)
    return `cannot be done as it is written (status 2): see the line above, and mend this step in ${path}`;
  if (status === exitStatus.unreadable)
    return 'something cannot be read or written (status 3): do what the line above says, then run it again';
  return `a fault of the program (status ${status}): keep the lines above, report them, and run it again`;
}

function afterText(status: number, isBroken: boolean, left: number): string {
  if (status === exitStatus.refused || left === 0) return '';
  return isBroken ? `; ${countOf(left, 'step')} after it not run` : '; the run goes on';
}

/** How the whole ended. */
function roundText(results: readonly StepResult[], status: number, stop: AbortSignal): string {
  const named = (of: readonly StepResult[]) => of.map((each) => `${each.step} (${each.do})`).join(', ');
  const bad = results.filter((each) => each.status !== null && each.status !== exitStatus.done);
  const notRun = results.filter((each) => each.status === null);
  const left = notRun.length === 0 ? '' : `; not run: step ${named(notRun)}`;
  if (stop.aborted) return `stopped by ${String(stop.reason)}${left}`;
  if (bad.length === 0) return 'all went well';
  return `ended with status ${status}: look at step ${named(bad)}${left}`;
}
