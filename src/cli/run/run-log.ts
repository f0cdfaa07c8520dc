import { appendFileSync, mkdirSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { DateTime } from 'luxon';
import { DryholdError, machineProblem } from '../../errors.ts';
import { visibleText } from '../../units/visible-text.ts';
import { remark } from '../context.ts';
import { filledIn } from './placeholders.ts';

/** Of what a step said so many lines are kept for whoever asked for quiet. */
const mostHeld = 200;

export interface RunLogOptions {
  /** What the path of the log counts from. */
  readonly folder: string;
  /** A file that each line is added to; may hold the day. */
  readonly log?: string | undefined;
  /** What is printed: everything, or what needs somebody. */
  readonly print: 'all' | 'alarms';
  /** Where it is printed. */
  readonly to: { write(text: string): unknown };
  /** The day that the path of the log means. */
  readonly day: () => string;
}

/**
 * The log of a run: lines with the time at this place, printed and added to a file. A file that can no longer be written is
 * told once and does not end the run.
 */
export class RunLog {
  readonly #options: RunLogOptions;
  #held: string[] = [];
  #leftOut = 0;
  /** When a line was last written [ms]. */
  lastMs = Date.now();
  isBroken = false;

  /** @throws DryholdError `output-unwritable` where the file cannot be written at the beginning */
  constructor(options: RunLogOptions) {
    this.#options = options;
    this.#append('', (error) => {
      throw error;
    });
  }

  /** Says what goes on. */
  note(text: string): void {
    const line = this.#write(text);
    const { print, to } = this.#options;
    if (print === 'all') to.write(line);
    else this.#hold(line);
  }

  /** Says what needs somebody, after what was said since `forget`. */
  alarm(text: string): void {
    const line = this.#write(text);
    const { to } = this.#options;
    if (this.#leftOut > 0) to.write(`(${this.#leftOut} lines are left out here)\n`);
    to.write([...this.#held, line].join(''));
    this.forget();
  }

  /** What was said so far needs nobody. */
  forget(): void {
    this.#held = [];
    this.#leftOut = 0;
  }

  #hold(line: string): void {
    this.#held.push(line);
    if (this.#held.length <= mostHeld) return;
    this.#held.shift();
    this.#leftOut += 1;
  }

  #write(text: string): string {
    this.lastMs = Date.now();
    const line = `${DateTime.now().toFormat('yyyy-MM-dd HH:mm:ss')} ${visibleText(text)}\n`;
    this.#append(line, (error) => {
      if (!this.isBroken) remark(`dryhold: ${error.message}; the run goes on without it`);
      this.isBroken = true;
    });
    return line;
  }

  #append(line: string, tell: (error: DryholdError) => void): void {
    const { log, folder, day } = this.#options;
    if (log === undefined) return;
    const path = resolve(folder, filledIn(log, day()));
    try {
      mkdirSync(dirname(path), { recursive: true });
      appendFileSync(path, line);
    } catch (error) {
      const problem = machineProblem(error);
      if (problem === undefined) throw error;
      tell(new DryholdError('output-unwritable', { path, problem }, error));
    }
  }
}
