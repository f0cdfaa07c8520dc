// Accuracy and speed of the refrigerants, in one run: `npm run bench:physics`. Accuracy against every row of the reference
// tables (see tests/references/coolprop-* and independent-*), speed of the fast tables, the solver and the generator.
import { spawnSync } from 'node:child_process';
import { cpus } from 'node:os';
import { fileURLToPath } from 'node:url';
import { textTable } from '../../src/cli/text-table.ts';
import { median } from '../../src/numerics/median.ts';
import { Random } from '../../src/numerics/random.ts';
import {
  fastSaturationOf,
  makeSaturationTable,
  refrigerantDesignations,
  refrigerantNamed,
  saturationAtTemperature,
} from '../../src/physics/index.ts';
import { type SaturationAccuracy, saturationAccuracy, type Worst } from '../physics/saturation-accuracy.ts';

const READINGS = 1e8;
const DIFFERENT = 1e6;
const ROUNDS = 5;

/** Columns of the accuracy table. */
const heads = [
  'refrigerant',
  'rows',
  'equations K',
  'liquid %',
  'vapour %',
  'tables K',
  'liquid %',
  'vapour %',
  'outside',
];

console.log(`one of ${cpus().length} cores (${cpus()[0]?.model.trim()}), Node ${process.versions.node}\n`);
for (const [key, source] of [
  ['coolprop-saturation', 'CoolProp 8.0, every 5 °C'],
  ['independent-saturation', 'an independent program, odd temperatures and other blends'],
] as const) {
  console.log(
    `largest deviation from ${source}, and at how many °C (goals: equations 0.005 K, 0.02 %; tables 0.01 K, 0.05 %)`,
  );
  console.log(`${textTable(heads, saturationAccuracy(key).map(accuracyRow))}\n`);
}

const random = new Random(1);
const fast = fastSaturationOf('R-410A');
const pressuresPa = Float64Array.from({ length: DIFFERENT }, () => 2e5 * 20 ** random.uniform());
const temperaturesK = Float64Array.from({ length: DIFFERENT }, () => 230 + 100 * random.uniform());
console.log(`speed, medians of ${ROUNDS} rounds`);
// A loop of its own for each, as a program would have it: one shared loop would be compiled for all of them.
read('dew points from pressures (goal 2 s)', () => {
  let sum = 0;
  for (let i = 0; i < DIFFERENT; i += 1) sum += fast.dewK(pressuresPa[i]);
  return sum;
});
read('bubble points from pressures', () => {
  let sum = 0;
  for (let i = 0; i < DIFFERENT; i += 1) sum += fast.bubbleK(pressuresPa[i]);
  return sum;
});
read('liquid densities from temperatures', () => {
  let sum = 0;
  for (let i = 0; i < DIFFERENT; i += 1) sum += fast.liquidKgPerM3(temperaturesK[i]);
  return sum;
});
read('vapour densities from temperatures', () => {
  let sum = 0;
  for (let i = 0; i < DIFFERENT; i += 1) sum += fast.vapourKgPerM3(temperaturesK[i]);
  return sum;
});
for (const designation of ['R-32', 'R-410A', 'R-448A']) {
  const refrigerant = refrigerantNamed(designation);
  const ms = rounds(() => {
    for (let i = 0; i < 100; i += 1) saturationAtTemperature(refrigerant, 230 + i);
  });
  console.log(`  equations solved at a temperature, ${designation}: ${(ms / 100).toFixed(2)} ms`);
}
const tables = rounds(() => refrigerantDesignations.map((each) => makeSaturationTable(refrigerantNamed(each))));
console.log(`  all ${refrigerantDesignations.length} tables generated: ${(tables / 1000).toFixed(2)} s (goal 5 s)`);
const index = fileURLToPath(new URL('../../src/physics/index.ts', import.meta.url));
const script = `const t = performance.now(); await import(${JSON.stringify(index)}); console.log(performance.now() - t);`;
const loads = Array.from({ length: ROUNDS }, () =>
  Number(spawnSync(process.execPath, ['--input-type=module', '-e', script], { encoding: 'utf8' }).stdout),
);
console.log(`  dryhold/physics loaded, types stripped: ${median(loads).toFixed(0)} ms`);

function accuracyRow({ refrigerant, rows, unsolved, outside, equations, tables }: SaturationAccuracy): string[] {
  const sides = [equations, tables].flatMap(({ temperatureK, liquid, vapour }) => [
    worstText(temperatureK, 1),
    worstText(liquid, 100),
    worstText(vapour, 100),
  ]);
  return [refrigerant, `${rows}${unsolved > 0 ? `, ${unsolved} unsolved` : ''}`, ...sides, String(outside)];
}

function worstText({ value, atC }: Worst, factor: number): string {
  return Number.isNaN(atC) ? '' : `${(value * factor).toExponential(1)} at ${atC}`;
}

/** Reads a series over and over, so many readings in all. */
function read(what: string, pass: () => number): void {
  let sum = 0;
  const ms = rounds(() => {
    for (let passes = 0; passes < READINGS / DIFFERENT; passes += 1) sum += pass();
  });
  if (!Number.isFinite(sum)) throw new Error(`${what}: a reading outside the table`);
  console.log(
    `  ${READINGS.toExponential(0)} ${what}: ${(ms / 1000).toFixed(2)} s, ${((ms * 1e6) / READINGS).toFixed(1)} ns each`,
  );
}

/** The median time of some rounds [ms]. */
function rounds(work: () => unknown): number {
  return median(
    Array.from({ length: ROUNDS }, () => {
      const start = performance.now();
      work();
      return performance.now() - start;
    }),
  );
}
