import type { Command } from 'commander';
import { SingleBar } from 'cli-progress';
import type { UnitSystem } from '../units/display.ts';
import { visibleLines } from '../units/visible-text.ts';

/** Options that every command takes. */
export interface CommonOptions {
  readonly store: string;
  /** How long the store is waited for while somebody else uses it, as it was written. */
  readonly wait: string;
  readonly json?: boolean;
  readonly units: UnitSystem;
  readonly codes?: boolean;
  readonly quiet?: boolean;
}

/** Exit statuses that other programs may rely on. */
export const exitStatus = { done: 0, refused: 1, usage: 2, unreadable: 3, bug: 70 } as const;

/** A command: adds itself to the program; its action gives the exit status through `settle`. */
export type AddCommand = (program: Command, settle: (status: number) => void) => void;

/** Prints a result for people. */
export function say(text: string): void {
  process.stdout.write(`${visibleLines(text)}\n`);
}

/** Prints a result for machines. */
export function sayJson(value: unknown, indent = 2): void {
  process.stdout.write(`${visibleJson(value, indent)}\n`);
}

/** JSON in which nothing is left that a terminal would obey: what JSON itself lets stand is written as its number. */
function visibleJson(value: unknown, indent: number): string {
  return JSON.stringify(value, null, indent).replaceAll(/(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/gu, (character) =>
    Array.from(
      { length: character.length },
      (_, at) => `\\u${character.charCodeAt(at).toString(16).padStart(4, '0')}`,
    ).join(''),
  );
}

/** Prints a remark beside the result, on standard error. */
export function remark(text: string): void {
  process.stderr.write(`${visibleLines(text)}\n`);
}

/** A progress bar on standard error; silent without a terminal or with --quiet. */
export class Progress {
  readonly #bar: SingleBar;
  #started = false;
  readonly #silent: boolean;

  constructor(what: string, { quiet = false, json = false }: Pick<CommonOptions, 'quiet' | 'json'>) {
    this.#silent = quiet || json || !process.stderr.isTTY;
    this.#bar = new SingleBar({
      format: `${what} {bar} {percentage} %  {note}`,
      stream: process.stderr,
      hideCursor: true,
      clearOnComplete: true,
      barCompleteChar: '█',
      barIncompleteChar: '░',
      barsize: 30,
    });
  }

  update(done: number, of: number, note = ''): void {
    if (this.#silent) return;
    if (!this.#started) this.#bar.start(of, 0, { note });
    this.#started = true;
    this.#bar.setTotal(of);
    this.#bar.update(done, { note });
  }

  stop(): void {
    if (this.#started) this.#bar.stop();
  }
}
