import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { skills } from '../../../src/fleet/skill.ts';
import { monthlyShares, rowTexts } from './drawn-figures.ts';
import { type OpenedReport, drawn, settled } from './opened-report.ts';

/** One row per job, written here straight on the tables: who did it, when, on what, and what any check said. */
const perJob = `WITH per_job AS (
  SELECT j.job_id, p.display_name AS technician, coalesce(j.crew_id, m.crew_id) AS crew, j.refrigerant,
    j.started_at[1:7] AS month,
    (SELECT count(*) FROM findings f WHERE f.job_id = j.job_id AND f.outcome IN ('pass', 'suspect', 'fail')) > 0 AS judged,
    (SELECT count(*) FROM findings f WHERE f.job_id = j.job_id AND f.outcome IN ('suspect', 'fail')) > 0 AS flagged
  FROM jobs j JOIN people p USING (technician_id) LEFT JOIN memberships m ON m.technician_id = j.technician_id
    AND m.from_on <= j.started_at[1:10]::DATE AND coalesce(m.to_on, '9999-12-31'::DATE) >= j.started_at[1:10]::DATE)`;

interface Counted {
  readonly who: string;
  readonly jobs: number;
  readonly judged: number;
  readonly flagged: number;
}

const counts = 'count(*) AS jobs, count(*) FILTER (judged) AS judged, count(*) FILTER (flagged) AS flagged';

/** What each chart shows: its texts, and how many marks of each kind it has; room left by an axis that was wider before aside. */
const marksOfCharts = `[...document.querySelectorAll('[data-chart] svg')].map((chart) => JSON.stringify([
  [...chart.querySelectorAll('.role-mark text')].map(({ textContent }) => textContent).sort(),
  ...['path', 'line', 'rect'].map((kind) => chart.querySelectorAll('.role-mark ' + kind).length),
  [...chart.querySelectorAll('.mark-line path')].map((path) => path.getAttribute('d').split(/[ML]/).length).sort(),
]))`;

const choose = async (page: Page, choices: Readonly<Record<string, string>>) => {
  for (const [name, value] of Object.entries(choices)) await page.selectOption(`select[name=${name}]`, value);
  await settled(page);
};

/** A choice of each kind, and of several at once, as the page has it and as SQL has it. */
const asks: readonly (readonly [Readonly<Record<string, string>>, string])[] = [
  [{}, 'true'],
  [{ crew: 'crew-birch' }, "crew = 'crew-birch'"],
  [{ refrigerant: 'R-410A' }, "refrigerant = 'R-410A'"],
  [{ from: '2025-10', to: '2026-02' }, "month BETWEEN '2025-10' AND '2026-02'"],
  [
    { crew: 'crew-cedar', refrigerant: 'R-32', from: '2025-09' },
    "crew = 'crew-cedar' AND refrigerant = 'R-32' AND month >= '2025-09'",
  ],
];

/** The filters, against counts by SQL. */
export function filtering(report: () => OpenedReport): void {
  const counted = (where: string, who: string) =>
    report().store.rows<Counted & Record<string, unknown>>(
      `${perJob} SELECT ${who} AS who, ${counts} FROM per_job WHERE ${where} GROUP BY ALL ORDER BY ALL`,
    );
  const total = async (where: string): Promise<Counted> =>
    (await counted(where, "''"))[0] ?? { who: '', jobs: 0, judged: 0, flagged: 0 };

  test('what the technicians chart and the counter say is what SQL counts, whatever is chosen', async () => {
    const { page, complaints } = await report().open('service-manager.html');
    const all = await total('true');
    for (const [choices, where] of asks) {
      await page.click('button[type=reset]');
      await choose(page, choices);
      const rows = await rowTexts(page, 'Share of judged jobs flagged per technician');
      const wanted = await counted(where, 'technician');
      const told = Object.fromEntries(wanted.map(({ who, judged, flagged }) => [who, `${flagged} of ${judged}`]));
      expect([where, Object.fromEntries([...rows].filter(([, text]) => text !== 'none judged'))]).toEqual([
        where,
        told,
      ]);
      expect(wanted.length).toBeGreaterThan(0);
      expect(await page.textContent('#filters output')).toBe(`${(await total(where)).jobs} of ${all.jobs} jobs`);
    }
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('one technician stands alone, beside the share of all', async () => {
    const { page } = await report().open('service-manager.html');
    const [{ who, flagged, judged }] = await counted('true', 'technician');
    await choose(page, { technician: who });
    const rows = await rowTexts(page, 'Share of judged jobs flagged per technician');
    expect([...rows]).toEqual([[who, `${flagged} of ${judged}`]]);
    const all = await total('true');
    expect(await page.textContent('[aria-label^="Share of judged jobs flagged per technician"] svg')).toContain(
      `all ${Math.round((100 * all.flagged) / all.judged)}%`,
    );
    await page.context().close();
  });

  test('a crew’s chart by month has its shares and counts, of the refrigerant that is chosen', async () => {
    const { page } = await report().open('service-manager.html');
    for (const [choices, and] of [
      [{}, ''],
      [{ refrigerant: 'R-32' }, " AND refrigerant = 'R-32'"],
    ] as const) {
      await choose(page, choices);
      const months = await monthlyShares(page, 'crew-birch:');
      const wanted = (await counted(`judged AND crew = 'crew-birch'${and}`, 'month')).map(({ judged, flagged }) => ({
        judged,
        flagged,
      }));
      expect(wanted.length).toBeGreaterThan(6);
      expect(months.map(({ share, judged }) => ({ judged, flagged: Math.abs(Math.round(share * judged)) }))).toEqual(
        wanted,
      );
      for (const [at, { share }] of months.entries())
        expect(share).toBeCloseTo((wanted[at]?.flagged ?? 0) / (wanted[at]?.judged ?? 1), 2);
    }
    await page.context().close();
  });

  test('a skill shows what was found of what was judged, in each of its three charts', async () => {
    const { page, complaints } = await report().open('trainer.html');
    for (const id of ['evacuation', 'tests-made', 'charge']) {
      const { checkIds = [] } = skills.find((skill) => skill.id === id) ?? {};
      const ids = checkIds.map((check) => `'${check}'`).join();
      const wanted = await report().store.rows<{ who: string; jobs: number; judged: number; found: number }>(
        `SELECT who, count(*) AS jobs, count(*) FILTER (judged) AS judged, count(*) FILTER (found) AS found FROM (
           SELECT p.display_name AS who, j.job_id, bool_or(f.outcome IN ('pass', 'suspect', 'fail')) AS judged,
             bool_or(f.outcome IN ('suspect', 'fail')) AS found
           FROM jobs j JOIN people p USING (technician_id) JOIN findings f ON f.job_id = j.job_id AND f.check_id IN (${ids})
           WHERE j.refrigerant = 'R-410A' GROUP BY ALL) GROUP BY who ORDER BY who`,
      );
      await choose(page, { skill: id, refrigerant: 'R-410A' });
      const rows = await rowTexts(page, 'Found over expected by technician');
      const found = [...rows].flatMap(([who, text]) => {
        const [, some, judged, expected] = /^(\d+) of (\d+)[; ]+([\d.]+) expected$/.exec(text) ?? [];
        return some === undefined
          ? []
          : [{ who, found: Number(some), judged: Number(judged), expected: Number(expected) }];
      });
      expect(found.map(({ expected: _, ...row }) => row).sort((a, b) => (a.who < b.who ? -1 : 1))).toEqual(
        wanted.filter(({ judged }) => judged > 0).map(({ who, judged, found: some }) => ({ who, found: some, judged })),
      );
      const carried = await rowTexts(page, 'Share of jobs that could be judged');
      expect(Object.fromEntries(carried)).toEqual(
        Object.fromEntries(wanted.map(({ who, jobs, judged }) => [who, `${judged} of ${jobs}`])),
      );
      // One point each of whom anything is expected.
      const points = await page.locator('[aria-label^="Funnel"] svg .mark-symbol.role-mark path').count();
      expect(points).toBe(found.filter(({ expected }) => expected > 0).length);
    }
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('"Show all" puts everything back; the address keeps the choice, the links the units', async () => {
    const { page } = await report().open('service-manager.html');
    const shown = () => page.evaluate<string[]>(marksOfCharts);
    const before = await shown();
    const chosen = { crew: 'crew-birch', refrigerant: 'R-32', from: '2025-10' };
    await choose(page, chosen);
    const narrowed = await shown();
    // Every chart of the page is about what was chosen.
    expect(narrowed.filter((chart, at) => chart === before[at])).toEqual([]);
    const { search } = new URL(page.url());
    expect(Object.fromEntries(new URLSearchParams(search))).toEqual(chosen);
    const again = await report().open('service-manager.html', { query: search.slice(1) });
    expect(await again.page.evaluate<string[]>(marksOfCharts)).toEqual(narrowed);
    expect(await again.page.inputValue('select[name=crew]')).toBe('crew-birch');
    await again.page.context().close();
    await page.click('text=Show all');
    await settled(page);
    expect(await shown()).toEqual(before);
    expect(new URL(page.url()).search).toBe('');
    await choose(page, { crew: 'crew-birch' });
    await page.check('input[name=units][value=si]');
    await page.click('.places >> text=Owner');
    await drawn(page);
    expect(new URL(page.url()).search).toBe('?units=si');
    expect(await page.getAttribute('html', 'data-units')).toBe('si');
    expect(await page.isChecked('input[name=units][value=si]')).toBe(true);
    await page.context().close();
  });

  test('an address that asks for what is not there shows all', async () => {
    const { page, complaints } = await report().open('service-manager.html', {
      query: 'crew=nobody&technician=%3Cscript%3E&from=9999-99&units=furlongs&skill=x',
    });
    const { jobs } = await total('true');
    expect(await page.textContent('#filters output')).toBe(`${jobs} of ${jobs} jobs`);
    expect([new URL(page.url()).search, complaints]).toEqual(['', []]);
    await page.context().close();
  });
}
