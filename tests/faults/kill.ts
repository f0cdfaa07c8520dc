// Kills ingest and judge at random moments and asks whether a second run gives, to the byte, what an undisturbed one gives:
// `npm run kill -- --points 200 --seed 1`. After every fourth kill all that follows is run to its end, too (--go-on 1: after each).
// --jobs 24 sets how large the bundle is, --keep leaves the folder for a look. Ends with status 1 where
// anything differs.
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { textTable } from '../../src/cli/text-table.ts';
import { commandsToKill, type KillResult, killOnce, undisturbed } from './kill-chain.ts';
import { writeInputs } from './kill-inputs.ts';

const { values } = parseArgs({
  options: {
    points: { type: 'string', default: '200' },
    seed: { type: 'string', default: '1' },
    jobs: { type: 'string', default: '24' },
    'go-on': { type: 'string', default: '4' },
    keep: { type: 'boolean', default: false },
  },
});
const [points, seed, jobs] = [values.points, values.seed, values.jobs].map(Number);
const folder = mkdtempSync(join(tmpdir(), 'dryhold-kill-'));

try {
  const sizes = { seed, jobs, smallFiles: 18, largeRows: 8_000, bundles: 4 };
  const run = await undisturbed(join(folder, 'run'), await writeInputs(join(folder, 'inputs'), sizes));
  const rows = [...(run.contents.at(-1) ?? [])].map(([name, text]) => `${name} ${text.split('\n').length - 1}`);
  console.log(`${points} points, seed ${seed}; rows of the undisturbed run: ${rows.join(', ')}`);
  const results: KillResult[] = [];
  for (const [point, index] of commandsToKill(run, points).entries()) {
    const result = await killOnce(run, index, { seed, point, goOn: point % Number(values['go-on']) === 0 });
    results.push(result);
    for (const problem of result.problems)
      console.log(`point ${point}, ${result.command} killed ${result.moment}: ${problem}`);
    if ((point + 1) % 20 === 0) console.log(`${point + 1} of ${points}, ${results.filter(isEqual).length} equal`);
  }
  console.log(
    textTable(
      ['command', 'ms undisturbed', 'points', 'ended by the signal', 'equal after a second run'],
      run.commands.map(({ name, ms }) => {
        const of = results.filter(({ command }) => command === name);
        return [name, ms.toFixed(0), of.length, of.filter(({ hit }) => hit).length, of.filter(isEqual).length].map(
          String,
        );
      }),
    ),
  );
  const equal = results.filter(isEqual).length;
  const hits = results.filter(({ hit }) => hit).length;
  console.log(
    `${equal} of ${points} equal to the byte; ${hits} were ended by the signal, the others had ended before it`,
  );
  process.exitCode = equal === points ? 0 : 1;
} finally {
  if (values.keep) console.log(folder);
  else rmSync(folder, { recursive: true, force: true });
}

function isEqual({ problems }: KillResult): boolean {
  return problems.length === 0;
}
