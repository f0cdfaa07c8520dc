// Kills ingest and judge at random moments and asks whether a second run gives, to the byte, what an undisturbed one gives:
// `npm run kill -- --points 200 --seed 1`. After every fourth kill all that follows is run to its end, too (--go-on 1: after each).
// --others 5 kills as often what takes an older store forward, watches a folder, or writes files; --jobs 24 sets how large the
// bundle is; --part 1/2 takes each second point; --keep leaves the folder for a look. Ends with status 1 where anything differs.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { textTable } from '../../src/cli/text-table.ts';
import { Random } from '../../src/numerics/random.ts';
import { commandsToKill, type KillResult, killOnce, type Undisturbed, undisturbed } from './kill-chain.ts';
import { writeInputs } from './kill-inputs.ts';
import { killOutput, outputsOf } from './kill-outputs.ts';
import { olderStore, watchedFolder } from './kill-scenes.ts';

const { values } = parseArgs({
  options: {
    points: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    jobs: { type: 'string', default: '24' },
    part: { type: 'string', default: '1/1' },
    others: { type: 'string', default: '5' },
    'go-on': { type: 'string', default: '4' },
    keep: { type: 'boolean', default: false },
  },
});
const [points, seed, jobs, others] = [values.points, values.seed, values.jobs, values.others].map(Number);
// Parts may be run beside each other: 1/2 takes each second point, 2/2 the others.
const [part, parts] = values.part.split('/').map(Number);
const folder = mkdtempSync(join(tmpdir(), 'dryhold-kill-'));

try {
  const inputs = join(folder, 'inputs');
  const sizes = { seed, jobs, smallFiles: 18, largeRows: 8_000, bundles: 4 };
  const commands = await writeInputs(inputs, sizes);
  const run = await undisturbed(join(folder, 'run'), commands);
  const rows = [...(run.contents.at(-1) ?? [])].map(([name, text]) => `${name} ${text.split('\n').length - 1}`);
  console.log(`${points} points, seed ${seed}; rows of the undisturbed run: ${rows.join(', ')}`);
  const results = await killed(run, commandsToKill(run, points));
  const equal = results.filter(isEqual).length;
  const hits = results.filter(({ hit }) => hit).length;
  console.log(
    `${equal} of ${results.length} equal to the byte; ${hits} were ended by the signal, the others had ended before it\n`,
  );
  const each = Array.from({ length: others }, () => 0);
  for (const scene of [
    await olderStore(join(folder, 'older'), commands),
    await watchedFolder(join(folder, 'watched'), inputs),
  ])
    results.push(...(await killed(scene, each)));
  const random = new Random(seed);
  for (const output of outputsOf(folder, join(run.folder, 'store')))
    for (const _ of each) results.push(told({ command: output.name, ...(await killOutput(output, random)) }));
  console.log(table(results));
  process.exitCode = results.every(isEqual) ? 0 : 1;
} finally {
  if (values.keep) console.log(folder);
  else rmSync(folder, { recursive: true, force: true });
}

/** Kills one command after the other, and tells at once what is not as it should be. */
async function killed(run: Undisturbed, indices: readonly number[]): Promise<KillResult[]> {
  const results: KillResult[] = [];
  const own = [...indices.entries()].filter(([point]) => point % parts === part - 1);
  for (const [at, [point, index]] of own.entries()) {
    results.push(told(await killOnce(run, index, { seed, point, goOn: point % Number(values['go-on']) === 0 })));
    if ((at + 1) % 10 === 0) console.log(`${at + 1} of ${own.length}, ${results.filter(isEqual).length} equal`);
  }
  return results;
}

function told(result: KillResult): KillResult {
  for (const problem of result.problems) console.log(`${result.command} killed ${result.moment}: ${problem}`);
  return result;
}

function table(results: readonly KillResult[]): string {
  const names = [...new Set(results.map(({ command }) => command))];
  return textTable(
    ['command', 'points', 'ended by the signal', 'right after a second run'],
    names.map((name) => {
      const of = results.filter(({ command }) => command === name);
      return [name, of.length, of.filter(({ hit }) => hit).length, of.filter(isEqual).length].map(String);
    }),
  );
}

function isEqual({ problems }: KillResult): boolean {
  return problems.length === 0;
}
