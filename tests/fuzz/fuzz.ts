// Hostile files against the real ingest: `npm run fuzz -- --files 100000 --seed 1`. Files are drawn from a seed and their
// number: the samples with bytes changed, also within what is packed, their maps changed, and bundles made of anything.
// --only N takes one of them in again and says what it is; --out FOLDER keeps those that did what no file may do.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { drawCase } from './draw-case.ts';
import { type Finding, fuzzRun } from './fuzz-run.ts';
import { sampleFiles } from './sample-files.ts';
import { takeCases } from './take-cases.ts';

const { values } = parseArgs({
  options: {
    files: { type: 'string', default: '2000' },
    seed: { type: 'string', default: '1' },
    first: { type: 'string', default: '0' },
    only: { type: 'string' },
    out: { type: 'string', default: 'dryhold-fuzz' },
  },
});
const [files, seed, first] = [Number(values.files), Number(values.seed), Number(values.first)];
const folder = mkdtempSync(join(tmpdir(), 'dryhold-fuzz-'));
const samples = await sampleFiles();

try {
  if (values.only === undefined) await run();
  else await one(Number(values.only));
} finally {
  rmSync(folder, { recursive: true, force: true });
}

async function run(): Promise<void> {
  const began = performance.now();
  let told = 0;
  const result = await fuzzRun({ seed, first, count: files, folder }, (done, { findings }) => {
    for (const finding of findings.slice(told)) keep(finding);
    told = findings.length;
    const seconds = (performance.now() - began) / 1000;
    if (done % 2000 < 500)
      console.log(`${done} files, ${findings.length} findings, ${(done / seconds).toFixed(0)} files/s`);
  });
  const seconds = (performance.now() - began) / 1000;
  console.log(`${files} files of seed ${seed} in ${seconds.toFixed(0)} s, ${(files / seconds).toFixed(0)} a second`);
  console.log(`files: ${JSON.stringify(result.files)}`);
  console.log(`rows: ${JSON.stringify(result.rows)}`);
  console.log(`longest time without a file or a step done: ${result.longestS.toFixed(1)} s`);
  console.log(`${result.findings.length} findings`);
  if (result.findings.length > 0) process.exitCode = 1;
}

/** Tells of a finding, and keeps its files. */
function keep({ numbers, problem }: Finding): void {
  console.log(
    `seed ${seed}, ${numbers.length === 1 ? `file ${numbers[0]}` : `files ${numbers[0]} to ${numbers.at(-1)}`}: ${problem}`,
  );
  mkdirSync(values.out, { recursive: true });
  for (const number of numbers.slice(0, 1)) write(number);
}

function write(number: number): void {
  const { name, bytes, map, what } = drawCase(seed, number, samples);
  const path = join(values.out, `${seed}-${number}-${name}`);
  writeFileSync(path, bytes);
  if (map !== undefined) writeFileSync(`${path}.map.json`, map);
  console.log(`  ${what}; kept as ${path}`);
}

async function one(number: number): Promise<void> {
  mkdirSync(values.out, { recursive: true });
  write(number);
  console.log(await takeCases(join(folder, 'run'), [drawCase(seed, number, samples)], () => undefined));
}
