import { expect, test } from 'vitest';
import { accuracyTable } from './accuracy-table.ts';
import { type ClaimCase, claim } from './claim.ts';
import { parts } from './parts/parts.ts';
import type { Part } from './parts/part.ts';
import { toldPart } from './told-part.ts';
import { truthPage } from './truth-page.ts';

const cases = (right: number, wrong: number): ClaimCase[] =>
  Array.from({ length: right + wrong }, (_, at) => ({
    plan: { seed: 1, number: at + 1, kind: 'planted' },
    value: at < right,
    badness: at < right ? 0 : at,
    says: `case ${at + 1}`,
    isUntold: at === right + wrong - 1,
  }));
const planted: Part = {
  name: 'planted',
  title: 'Planted claims',
  sizes: { small: { jobs: 1 }, full: { jobs: 1 } },
  fullS: 1,
  run: () => ({
    drawn: 'planted cases',
    claims: [
      claim('right as often as it should be', cases(95, 5), { least: 0.9 }),
      claim('too seldom right', cases(80, 20), { least: 0.9 }),
      claim('… of a few', cases(8, 2), { least: 0.9 }),
      claim('measured | alone', cases(10, 0)),
      claim('asked of none', [], { least: 0.9 }),
    ],
    tables: [{ title: 'Beside them', heads: ['a', 'b'], rows: [['1', '2']] }],
    notes: ['a note'],
  }),
};
const told = await toldPart(planted, { size: planted.sizes.small, seed: 1, worst: 10 });
const options = { command: 'npm run truth', date: '2026-01-31', size: 'small', seed: 1, machine: ['Machine: none'] };
const page = truthPage([told], options);
const [summary, section] = page.split('## Planted claims\n');

test('a claim that misses its goal is told so, one that meets it, one without and one without cases are not', () => {
  const lines = accuracyTable(told.claims)
    .split('\n')
    .slice(1)
    .map((line) => line.replaceAll(/ +/g, ' '));
  expect(lines).toEqual([
    'right as often as it should be 100 95.0 % (88.8–97.8) ≥ 90.0 % met 1',
    'too seldom right 100 80.0 % (71.1–86.7) ≥ 90.0 % MISSED 1',
    '… of a few 10 80.0 % (49.0–94.3) ≥ 90.0 % MISSED 1',
    'measured | alone 10 100.0 % (72.2–100.0) 1',
    'asked of none 0 – ≥ 90.0 %',
  ]);
});

test('the page counts goals, and names those that were missed with the claim that they continue', () => {
  expect(summary).toContain('| all | 5 | 3 | 1 | 2 |');
  expect(summary.match(/^- Planted claims: .*/gm)).toEqual([
    '- Planted claims: too seldom right: 80.0 % (71.1–86.7), goal ≥ 90.0 %, n 100',
    '- Planted claims: too seldom right … of a few: 80.0 % (49.0–94.3), goal ≥ 90.0 %, n 10; the interval reaches the goal',
  ]);
});

test('the page has every claim once, its tables and notes, the worst ten cases of what was missed and the worst of all others', () => {
  for (const { what } of told.claims) expect(section.split(`| ${what.replace('|', '\\|')} |`)).toHaveLength(2);
  expect(section).toContain('| 1 | 2 |');
  expect(section).toContain('- a note');
  const worst = section.slice(section.indexOf('### Worst cases'));
  expect(worst).toContain('- right as often as it should be (5 of 100): seed 1 no. 100 (planted): case 100');
  expect(worst.match(/^ {2}- seed 1 no\. \d+ \(planted\): case \d+$/gm)).toHaveLength(10 + 2);
  expect(worst).toContain('  - seed 1 no. 91 (planted): case 91');
  expect(worst).not.toContain('case 90');
});

test('a page of very many claims lists fewer cases, and no claim less', () => {
  const many = { ...told, claims: Array.from({ length: 200 }, () => told.claims[1]) };
  const long = truthPage([many], options);
  expect(long.split('\n').length).toBeLessThan(1500);
  expect(long.match(/^\| too seldom right \|/gm)).toHaveLength(200);
});

test('every part has a name of its own, and a full size that draws more than the small one', () => {
  expect(new Set(parts.map(({ name }) => name)).size).toBe(parts.length);
  for (const { sizes } of parts)
    for (const [amount, small] of Object.entries(sizes.small)) expect(sizes.full[amount]).toBeGreaterThan(small);
});
