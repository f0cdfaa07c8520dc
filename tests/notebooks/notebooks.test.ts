import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { wholeChart } from '../../src/pages/notebook/notebook-output.ts';
import { notebookConfig } from '../../src/pages/notebook/notebook-page.ts';
import { type NotebookResult, writeNotebooks } from '../../src/steps/notebook/write-notebooks.ts';
import { Store } from '../../src/store/store.ts';
import { schemaErrors } from '../charts/schema-errors.ts';
import { hasChromium, startChromium } from '../pages/chromium.ts';
import { drawnCharts, openPage } from '../pages/open-page.ts';
import { simulatedStore } from '../steps/simulated-store.ts';
import { notebookFiles } from './notebook-files.ts';

const folder = mkdtempSync(join(tmpdir(), 'dryhold-notebooks-'));
const storeFolder = join(folder, 'store-11');
let results: readonly NotebookResult[];
let figures: Readonly<Record<string, unknown>>;
let people: readonly string[];

beforeAll(async () => {
  await (await simulatedStore(folder, { jobs: 300, seed: 11, intervalS: 20 })).close();
  // By codes and in SI; by names, and in other units, they are run on the small store of notebook-runs.test.ts.
  results = await writeNotebooks(notebookFiles, join(folder, 'pages'), {
    storeFolder,
    codes: true,
    reader: { units: 'si', dates: 'iso' },
  });
  const store = await Store.open(storeFolder, 'read');
  try {
    figures = await countedFigures(store);
    people = (
      await store.rows<{ name: string }>(
        'SELECT display_name AS name FROM people UNION SELECT technician_id FROM people UNION SELECT crew_id FROM memberships',
      )
    ).map(({ name }) => name);
  } finally {
    await store.close();
  }
}, 120_000);

afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** The figures of the notebooks that are held against counts, counted by SQL alone. */
async function countedFigures(store: Store): Promise<Record<string, unknown>> {
  const one = async (sql: string) => (await store.rows(sql))[0] ?? {};
  return {
    ...(await one(`
      WITH season AS (
        SELECT job_id, crew_id FROM jobs WHERE left(started_at, 10)::DATE > (SELECT max(left(started_at, 10)::DATE) FROM jobs) - 92),
      busiest AS (SELECT crew_id FROM season GROUP BY ALL ORDER BY count(*) DESC LIMIT 1),
      judged AS (
        SELECT job_id, bool_or(outcome IN ('fail', 'suspect')) AS found FROM season JOIN findings USING (job_id)
        WHERE crew_id = (FROM busiest) AND check_id IN ('gauge-at-pump', 'hold-short', 'slow-pull-down', 'target-not-reached', 'water-in-system')
          AND outcome IN ('fail', 'suspect', 'pass') GROUP BY ALL)
      SELECT (SELECT count(*) FROM season WHERE crew_id = (FROM busiest)) AS "seasonJobs",
        (SELECT count(*) FILTER (found) || ' of ' || count(*) FROM judged) AS evacuation`)),
    ...(await one(`SELECT count(*) AS callbacks FROM callbacks`)),
    ...(await one(`
      SELECT count(*) AS tests, count(*) FILTER (smallest_loss_low_kg_per_year <= 10) AS best FROM facts
      WHERE smallest_loss_high_kg_per_year > 0 AND isolation_end_s > isolation_start_s`)),
    ...(await one(`
      SELECT count(*) AS cylinders, sum(net_kg) AS "boughtKg" FROM cylinders
      WHERE kind IS DISTINCT FROM 'recovery' AND refrigerant <> 'R-999Z'`)),
  };
}

/** All that a notebook showed, as one text. */
const shownBy = (name: string): string =>
  JSON.stringify(results.find(({ file }) => basename(file) === `${name}.md`)?.cells);

/** The rows of a table that it showed. */
const rowsOf = (name: string, title: RegExp) =>
  results
    .filter(({ file }) => basename(file) === `${name}.md`)
    .flatMap(({ cells }) => cells.flatMap(({ outputs }) => outputs))
    .flatMap((output) => (output.kind === 'table' && title.test(output.title) ? output.rows : []));

/** A count as the notebooks write it. */
const grouped = (count: unknown): string => String(count).replace(/\B(?=(\d{3})+$)/g, '\u00a0');

describe('key figures are those that SQL counts', () => {
  test('a crew’s season: its jobs, and those with a poor evacuation', () => {
    expect(shownBy('a-crews-season')).toContain(`${grouped(figures['seasonJobs'])} jobs, beside`);
    const [row] = rowsOf('a-crews-season', /^Jobs of/).filter(({ skill }) => skill === 'evacuation');
    expect(row?.['found']).toBe(figures['evacuation']);
  });

  test('callbacks: how many, and their causes add up to them', () => {
    expect(Number(figures['callbacks'])).toBeGreaterThan(5);
    expect(shownBy('what-foretells-callbacks')).toContain(`"${grouped(figures['callbacks'])} callbacks from`);
    const causes = rowsOf('what-foretells-callbacks', /were about/).map(({ callbacks }) => Number(callbacks));
    expect(causes.reduce((sum, count) => sum + count, 0)).toBe(figures['callbacks']);
  });

  test('rise tests: how many, by their lengths and together, and how many tell a large leak at best', () => {
    const tests = Number(figures['tests']);
    expect(tests).toBeGreaterThan(100);
    const byLength = rowsOf('how-long-should-our-rise-test-be', /^Smallest leak told/).map((row) =>
      Number(row['tests']),
    );
    expect(byLength.reduce((sum, count) => sum + count, 0)).toBe(tests);
    const large = rowsOf('how-long-should-our-rise-test-be', /^Share of our/).at(-1);
    expect(large?.['at best (95%)']).toMatch(`${Math.round((100 * Number(figures['best'])) / tests)}% (`);
  });

  test('the year’s refrigerant: what was bought, over all refrigerants', () => {
    const rows = rowsOf('the-years-refrigerant', /^Where the refrigerant/);
    const kg = (text: unknown) => Number(String(text).replaceAll(/[\u00a0 kg]/g, ''));
    expect(rows.at(-1)?.['refrigerant']).toBe('all');
    // One cylinder is of a refrigerant that nobody knows: it is told apart.
    expect(rowsOf('the-years-refrigerant', /^What could not/).map(({ what }) => what)).toContain('1 cylinder');
    expect(kg(rows.at(-1)?.['bought'])).toBeCloseTo(Number(figures['boughtKg']), 1);
    const parts = rows.slice(0, -1).reduce((sum, { bought }) => sum + kg(bought), 0);
    expect(Math.abs(parts - Number(figures['boughtKg']))).toBeLessThan(0.01 * rows.length);
  });
});

test('every chart is valid, and the compiler of charts has nothing to remark', () => {
  for (const { file, cells, warnings } of results) {
    const charts = cells.flatMap(({ outputs }) => outputs.filter((output) => output.kind === 'chart'));
    expect([file, warnings, charts.length > 0]).toEqual([file, [], true]);
    for (const chart of charts)
      expect([chart.title, schemaErrors(wholeChart(chart, notebookConfig))]).toEqual([chart.title, []]);
  }
});

test('by codes nobody is named, not even in the code of the page, and figures are in the units that were asked for', () => {
  for (const { page } of results) {
    const text = readFileSync(page, 'utf8');
    expect([page, people.filter((name) => text.includes(name))]).toEqual([page, []]);
  }
  expect(people.length).toBeGreaterThan(10);
  expect(shownBy('a-crews-season')).toMatch(/"C00\d, /);
  expect(shownBy('the-years-refrigerant')).toMatch(/\d kg bought/);
  expect(shownBy('the-years-refrigerant')).not.toMatch(/\d lb\b/);
});

describe.skipIf(!hasChromium)('in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await startChromium();
  });
  afterAll(() => browser.close());

  test.each([
    ['light', 1100],
    ['dark', 390],
  ] as const)('every page opens without complaint, %s, %d px wide', { timeout: 60_000 }, async (colorScheme, width) => {
    for (const { file, page: path } of results) {
      const html = readFileSync(path, 'utf8');
      const { page, complaints } = await openPage(browser, { file: path, html, width, colorScheme });
      const charts = await drawnCharts(page);
      const seen = await page.evaluate<{ wide: number; units: number; folded: number }>(
        `(() => {
          const folded = document.querySelectorAll('details.code:not([open])');
          for (const code of folded) code.open = true;
          return { wide: document.documentElement.scrollWidth - innerWidth, units: document.querySelectorAll('[name=units]').length, folded: folded.length };
        })()`,
      );
      expect([file, complaints, seen.wide, seen.units]).toEqual([file, [], 0, 0]);
      expect(seen.folded).toBeGreaterThan(3);
      for (const chart of charts) expect([file, chart.drawn, chart.over <= 0]).toEqual([file, 'yes', true]);
      await page.context().close();
    }
  });
});
