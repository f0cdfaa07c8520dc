import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { hasChromium } from './chromium.ts';
import { hostileStore } from './hostile-store.ts';
import { OpenedReport, settled } from './report-pages/opened-report.ts';
import { rowTexts } from './report-pages/drawn-figures.ts';

if (!hasChromium) console.warn('no /usr/bin/chromium: the pages of hostile records are not looked at in a browser');

describe.skipIf(!hasChromium)('a report whose records hold hostile texts', { timeout: 120_000 }, () => {
  let report: OpenedReport;

  beforeAll(async () => {
    report = await OpenedReport.of((folder) => hostileStore(folder, 100));
  }, 120_000);
  afterAll(() => report.close());

  test('files are called by plain names, each by its own', () => {
    const files = readdirSync(report.folder, { recursive: true, withFileTypes: true }).filter((entry) =>
      entry.isFile(),
    );
    const names = files.map(({ name }) => name).filter((name) => name !== '.dryhold-pages');
    expect(names.length).toBeGreaterThan(15);
    for (const name of names) expect(name).toMatch(/^[a-z0-9-]{1,80}\.html$/);
  });

  test('every page opens without complaint; texts are texts, whole and in their place', async () => {
    const folders = ['sheets', 'jobs'].flatMap((folder) =>
      readdirSync(join(report.folder, folder))
        .slice(0, 3)
        .map((name) => `${folder}/${name}`),
    );
    const seen: string[] = [];
    for (const file of ['index.html', 'service-manager.html', 'trainer.html', 'owner.html', ...folders]) {
      const { page, complaints } = await report.open(file, { width: 360 });
      await page.evaluate("for (const details of document.querySelectorAll('details')) details.open = true");
      const strange = await page.evaluate<string[]>(
        `[...document.querySelectorAll('img, iframe, object, [onerror], [onfocus], [autofocus], b, a[href^="javascript" i], main script, main style')]
          .map((element) => element.outerHTML)`,
      );
      expect([file, complaints, strange]).toEqual([file, [], []]);
      expect(await page.evaluate('window.hacked')).toBeUndefined();
      expect([file, await page.evaluate('document.documentElement.scrollWidth')]).toEqual([file, 360]);
      seen.push(await page.evaluate<string>("document.querySelector('.page').textContent"));
      await page.context().close();
    }
    const all = seen.join('\n');
    for (const text of [
      '<script>window.hacked = 1</script>',
      `"'><img src=x onerror="window.hacked = 2">`,
      '</script></style></title><!--<script>',
      "datum['x'] + `${window.hacked = 4}` {{7*7}}",
      'W'.repeat(480),
      '👩‍🔧🏳️‍🌈 𝔘𝔫𝔦 ﷽',
      '&lt;b&gt; &amp;amp; &#x3c;',
      '__proto__',
    ])
      expect([text, all.includes(text)]).toEqual([text, true]);
    // What would be obeyed is shown instead.
    expect(/(?![\t\n\r])[\p{Cc}\u202a-\u202e\u2066-\u2069]/u.exec(all)).toBeNull();
    expect(all).toContain('\\u{202e}gnp.exe\\u{2066} turned');
  });

  test('filters find the jobs of whoever is called so', async () => {
    const { page, complaints } = await report.open('service-manager.html');
    const wanted = await report.store.rows<{ name: string; jobs: number; told: string }>(
      `SELECT coalesce(p.display_name, j.technician_id) AS name, count(DISTINCT j.job_id) AS jobs,
         count(DISTINCT j.job_id) FILTER (f.outcome IN ('suspect', 'fail')) || ' of ' ||
         count(DISTINCT j.job_id) FILTER (f.outcome IN ('suspect', 'fail', 'pass')) AS told
       FROM jobs j LEFT JOIN people p USING (technician_id) JOIN findings f USING (job_id)
       WHERE j.technician_id IS NOT NULL GROUP BY ALL ORDER BY jobs`,
    );
    expect(wanted.length).toBeGreaterThan(9);
    const options = await page.$$eval('select[name=technician] option', (all) =>
      all.map((option) => (option as unknown as { value: string }).value),
    );
    const counted: { jobs: number; told: string }[] = [];
    for (const value of options.filter((one) => one !== '')) {
      await page.selectOption('select[name=technician]', { value });
      await settled(page);
      const [, jobs] = /^(\d+) of/.exec((await page.textContent('#filters output')) ?? '') ?? [];
      const rows = await rowTexts(page, 'Share of judged jobs flagged per technician');
      counted.push({ jobs: Number(jobs), told: [...rows.values()].join() });
      // The address brings the same choice back.
      const again = new URL(page.url()).searchParams.get('technician');
      expect(again).toBe(value);
    }
    const byCount = (one: { jobs: number; told: string }) => `${String(one.jobs).padStart(3, '0')}: ${one.told}`;
    expect(counted.map(byCount).sort()).toEqual(wanted.map(byCount).sort());
    expect(complaints).toEqual([]);
    await page.context().close();
  });

  test('every crew and refrigerant that is offered has jobs', async () => {
    const { page, complaints } = await report.open('trainer.html');
    for (const name of ['crew', 'refrigerant']) {
      const count = await page.locator(`select[name=${name}] option`).count();
      expect(count).toBeGreaterThan(3);
      let sum = 0;
      for (let at = 1; at < count; at += 1) {
        await page.selectOption(`select[name=${name}]`, { index: at });
        const [, jobs] = /^(\d+) of/.exec((await page.textContent('#filters output')) ?? '') ?? [];
        expect([name, at, Number(jobs) > 0]).toEqual([name, at, true]);
        sum += Number(jobs);
      }
      await page.selectOption(`select[name=${name}]`, { index: 0 });
      expect(sum).toBeLessThanOrEqual(Number(/^(\d+) of/.exec((await page.textContent('#filters output')) ?? '')?.[1]));
    }
    expect(complaints).toEqual([]);
    await page.context().close();
  });
});
