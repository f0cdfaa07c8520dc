// How fast the toolkit is, beside what it could be at most, what a data person would write instead, and itself at a tenth of the size:
// `npm run bench -- --sizes 1e6,1e7`. --only names what is measured; --folder keeps the drawn fleets, so that a size can be measured
// again; --python one that has polars; --out also writes the table as a page; --profile says instead where the time of judging goes.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { benchPage, benchTable } from './bench-page.ts';
import { machineLine } from './machine.ts';
import { ownProcess } from './measured-process.ts';
import { polarsBy } from './polars.ts';
import { profileOfJudging } from './profile.ts';
import { type BenchPart, benchRows, parts } from './run-bench.ts';

const { values } = parseArgs({
  options: {
    sizes: { type: 'string', default: '1e6,1e7' },
    only: { type: 'string', default: parts.join(',') },
    rounds: { type: 'string', default: '3' },
    seed: { type: 'string', default: '1' },
    folder: { type: 'string' },
    python: { type: 'string', default: process.env.DRYHOLD_BENCH_PYTHON ?? 'python3' },
    'whole-jobs': { type: 'string', default: '2000' },
    'year-jobs': { type: 'string', default: '50000' },
    out: { type: 'string' },
    profile: { type: 'boolean', default: false },
  },
});
const sizes = values.sizes.split(',').map(Number);
const only = values.only.split(',') as BenchPart[];
const unknown = only.filter((part) => !parts.includes(part));
if (unknown.length > 0) throw new Error(`--only takes ${parts.join(', ')}, not ${unknown.join(', ')}`);
if (sizes.some((size) => !(size >= 1000)))
  throw new Error(`--sizes takes numbers of readings from 1000, not ${values.sizes}`);
for (const name of ['rounds', 'seed', 'whole-jobs', 'year-jobs'] as const)
  if (!/^[1-9]\d*$/.test(values[name])) throw new Error(`--${name} takes a whole number from 1, not ${values[name]}`);

const temporary = values.folder === undefined ? mkdtempSync(join(tmpdir(), 'dryhold-bench-')) : undefined;
const folder = values.folder ?? temporary ?? '';
const started = performance.now();
const say = (what: string) =>
  console.error(`${((performance.now() - started) / 1000).toFixed(0).padStart(5)} s  ${what}`);
const readingsPerJob = 3000;
const year = { jobs: Number(values['year-jobs']), dayJobs: 200, readingsPerJob: 300 };
const common = { readingsPerJob, seed: Number(values.seed), folder, run: ownProcess, say };

try {
  if (values.profile) console.log(await profileOfJudging({ ...common, size: Math.max(...sizes) }));
  else {
    const machine = machineLine(polarsBy(values.python));
    const rows = await benchRows({
      ...common,
      sizes,
      only,
      rounds: Number(values.rounds),
      python: values.python,
      wholeJobs: Number(values['whole-jobs']),
      year,
    });
    console.log(`${machine}\n\n${benchTable(rows)}`);
    if (values.out !== undefined) writeFileSync(values.out, benchPage(rows, machine, howMeasured()));
  }
} finally {
  if (temporary !== undefined) rmSync(temporary, { recursive: true, force: true });
}

function howMeasured(): string[] {
  return [
    `Times are those of whole processes, started anew for each round, from their start to their end; a bare read or scan counts its query alone. Of ${values.rounds} rounds, turn by turn, the middle one counts; from 3e7 readings on there is one. The most memory is that of each process.`,
    `Vacuum logs have job, time, vacuum and line temperature, about ${readingsPerJob} readings a job; each job is simulated on its own. Whole logs have all columns of a shop's export. The jobs of the year have about ${year.readingsPerJob} readings each.`,
    'The bare scan sums every column that judging reads. The polars script asks the same questions in the simplest honest way; its head says what it leaves out. Growth takes what lies beyond the start of the program.',
  ];
}
