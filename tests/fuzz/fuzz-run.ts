import { join } from 'node:path';
import type { Taken } from './take-cases.ts';
import { longestS, type Outcome, WatchedWorker } from './watched-worker.ts';

/** So many files share a store; one of them is taken in once more by itself. */
export const batchFiles = 500;

/** A file that did what no file may do, or a batch of them of which none does so alone. */
export interface Finding {
  readonly numbers: readonly number[];
  readonly problem: string;
}

/** What a run came to. */
export interface RunResult {
  readonly findings: Finding[];
  readonly files: Taken['files'];
  readonly rows: Taken['rows'];
  /** The longest time without a file or a step done [s]. */
  longestS: number;
}

/**
 * Takes files in batch by batch; where one goes wrong, its files one by one, to tell which it was.
 *
 * @param folder where stores are made
 * @param onBatch hears how many files are done, and what was found so far
 */
export async function fuzzRun(
  { seed, first, count, folder }: { seed: number; first: number; count: number; folder: string },
  onBatch: (done: number, result: RunResult) => void = () => undefined,
): Promise<RunResult> {
  const worker = new WatchedWorker();
  const result: RunResult = {
    findings: [],
    files: { taken: 0, refused: 0, aside: 0, drafted: 0, wrongMaps: 0 },
    rows: { read: 0, kept: 0, rejected: 0, repeated: 0 },
    longestS: 0,
  };
  const run = (numbers: readonly number[]) => worker.run({ seed, numbers, folder: join(folder, 'run') });
  try {
    for (let from = first; from < first + count; from += batchFiles) {
      const numbers = Array.from({ length: Math.min(batchFiles, first + count - from) }, (_, index) => from + index);
      const outcome = await run(numbers);
      if ('files' in outcome) add(result, outcome);
      const problem = problemOf(outcome);
      if (problem === undefined) result.findings.push(...(await narrowed(run, [from])));
      else result.findings.push(...(await halved(run, numbers, problem)));
      result.longestS = Math.max(result.longestS, worker.longestS);
      onBatch(from + numbers.length - first, result);
    }
  } finally {
    worker.end();
  }
  return result;
}

type Run = (numbers: readonly number[]) => Promise<Outcome>;

/** The files of a batch that do wrong, each alone; the whole batch where its halves do no wrong. */
async function halved(run: Run, numbers: readonly number[], problem: string): Promise<Finding[]> {
  if (numbers.length === 1) return [{ numbers, problem }];
  const middle = Math.ceil(numbers.length / 2);
  const found = [...(await narrowed(run, numbers.slice(0, middle))), ...(await narrowed(run, numbers.slice(middle)))];
  return found.length > 0 ? found : [{ numbers, problem }];
}

async function narrowed(run: Run, numbers: readonly number[]): Promise<Finding[]> {
  const problem = problemOf(await run(numbers));
  return problem === undefined ? [] : halved(run, numbers, problem);
}

function problemOf(outcome: Outcome): string | undefined {
  if ('hung' in outcome) return `nothing was heard for ${longestS} s`;
  if ('died' in outcome) return `the process died: ${outcome.died}`;
  return outcome.problems.length === 0 ? undefined : outcome.problems.join('\n');
}

function add({ files, rows }: RunResult, taken: Taken): void {
  for (const name of Object.keys(files) as (keyof Taken['files'])[]) files[name] += taken.files[name];
  for (const name of Object.keys(rows) as (keyof Taken['rows'])[]) rows[name] += taken.rows[name];
}
