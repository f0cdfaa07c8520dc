// Run as a process of its own, so that a crash or a hang of it is seen: takes the files in that it is told to.
import { rmSync } from 'node:fs';
import { drawCase } from './draw-case.ts';
import { sampleFiles } from './sample-files.ts';
import { type Taken, takeCases } from './take-cases.ts';

/** What a worker is told to do. */
export interface Order {
  readonly seed: number;
  readonly numbers: readonly number[];
  readonly folder: string;
}

/** What a worker says: that it goes on, or what came of the order. */
export type Answer = { readonly tick: true } | { readonly taken: Taken };

const samples = await sampleFiles();
const say = (answer: Answer) => {
  if (process.connected) process.send?.(answer);
};

process.on('message', ({ seed, numbers, folder }: Order) => {
  const cases = numbers.map((number) => drawCase(seed, number, samples));
  say({ tick: true });
  void takeCases(folder, cases, () => say({ tick: true })).then((taken) => {
    rmSync(folder, { recursive: true, force: true });
    say({ taken });
  });
});
process.on('disconnect', () => process.exit());
say({ tick: true });
