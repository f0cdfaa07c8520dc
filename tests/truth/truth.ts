// How near the product comes to the truth, claim by claim, on drawn jobs, fleets and cylinders whose truth is known:
// `npm run truth -- --size full --seed 1 --only vacuum --worst 10 --out docs/truth.md`. How much is drawn is said by --size (small or
// full), and for what has it by --jobs, --planted, --steps, --fleets, --series and --cylinders. --job N prints one evacuation, --csv FILE
// writes its trace.
import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { textTable } from '../../src/cli/text-table.ts';
import { accuracyTable, worstTrials } from './accuracy-table.ts';
import { drawTrial } from './draw-trial.ts';
import { machineLines } from './machine.ts';
import { parts } from './parts/parts.ts';
import { runParts } from './run-parts.ts';
import { runTrial } from './run-trial.ts';
import type { ToldPart } from './told-part.ts';
import { traceCsv } from './trace-csv.ts';
import { trialResult } from './trial-result.ts';
import { truthPage } from './truth-page.ts';

const amounts = ['jobs', 'planted', 'steps', 'fleets', 'series', 'cylinders'] as const;
const { values } = parseArgs({
  options: {
    size: { type: 'string', default: 'small' },
    seed: { type: 'string', default: '1' },
    only: { type: 'string', multiple: true },
    worst: { type: 'string', default: '10' },
    out: { type: 'string' },
    date: { type: 'string', default: new Date().toISOString().slice(0, 10) },
    job: { type: 'string' },
    csv: { type: 'string' },
    jobs: { type: 'string' },
    planted: { type: 'string' },
    steps: { type: 'string' },
    fleets: { type: 'string' },
    series: { type: 'string' },
    cylinders: { type: 'string' },
  },
});
const [seed, worst] = [values.seed, values.worst].map(Number);
const size = values.size === 'full' ? 'full' : 'small';
const unknown = [
  ...(values.size === size ? [] : [`--size ${values.size}: small or full`]),
  ...(values.only ?? [])
    .filter((asked) => !parts.some(({ name }) => name === asked))
    .map((asked) => `--only ${asked}: one of ${parts.map(({ name }) => name).join(', ')}`),
  ...(['seed', 'job', ...amounts] as const)
    .filter((name) => values[name] !== undefined && !/^[1-9]\d*$/.test(values[name]))
    .map((name) => `--${name} ${values[name]}: a whole number from 1`),
];

if (unknown.length > 0) {
  console.error(unknown.join('\n'));
  process.exitCode = 2;
} else if (values.job === undefined) {
  const asked = parts.filter(({ name }) => values.only?.includes(name) ?? true);
  const longest = asked.toSorted((a, b) => b.fullS - a.fullS);
  const told = runParts(
    longest.map(({ name, sizes }) => ({
      name,
      size: { ...sizes[size], ...askedAmounts(Object.keys(sizes[size])) },
      seed,
      worst,
    })),
  );
  const results: ToldPart[] = [];
  for (const part of asked) {
    const one = await told[longest.indexOf(part)];
    printed(one);
    results.push(one);
  }
  const missed = results.flatMap(({ claims }) => claims.filter(({ met }) => met === false));
  console.log(`\n${missed.length} goals missed${missed.map(({ name }) => `\n  ${name}`).join('')}`);
  if (values.out !== undefined) {
    const only = values.only?.map((name) => ` --only ${name}`).join('') ?? '';
    const drawn = amounts
      .flatMap((name) => (values[name] === undefined ? [] : [` --${name} ${values[name]}`]))
      .join('');
    const command = `npm run truth -- --size ${size} --seed ${seed}${only}${drawn} --out ${values.out}`;
    writeFileSync(values.out, truthPage(results, { command, date: values.date, size, seed, machine: machineLines() }));
  }
} else {
  const plan = drawTrial(seed, Number(values.job));
  const { truth, facts } = trialResult(plan);
  console.log(JSON.stringify({ plan, truth, facts }, null, 2));
  if (values.csv !== undefined) writeFileSync(values.csv, traceCsv(runTrial(plan)));
}

/** What the command line asks of the amounts that a part has. */
function askedAmounts(own: readonly string[]): Record<string, number> {
  return Object.fromEntries(
    amounts.flatMap((name) => {
      const asked = values[name];
      return asked === undefined || !own.includes(name) ? [] : [[name, Number(asked)]];
    }),
  );
}

function printed({ title, drawn, claims, tables, notes, seconds }: ToldPart): void {
  console.log(`\n${title}: ${drawn}, seed ${seed}, ${seconds.toFixed(0)} s; shares with their 95 % interval\n`);
  console.log(accuracyTable(claims));
  for (const { title: head, heads, rows } of tables) console.log(`\n${head}\n${textTable(heads, rows)}`);
  console.log(worstTrials(claims));
  for (const note of notes) console.log(`\n${note}`);
}
