import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { columnsOf, type Table } from '../../src/records/table.ts';
import { inputTables } from '../../src/records/tables.ts';
import { dryhold, temporaryFolder } from '../cli/dryhold-process.ts';

const folder = temporaryFolder();
const store = ['--store', join(folder.path, 'store')];
/** Markup, the end of a script, a line that JavaScript breaks at, SQL, what a terminal obeys, and what turns text round. */
const evil = `<script>alert(1)</script></script><!--\u2028'); DROP TABLE jobs; --"\u001b[2J\u009b31m\u202e<img src=x onerror=alert(1)>`;
const cells: Record<string, (at: number) => unknown> = {
  text: (at) => `${evil} ${at}`,
  number: () => 0,
  integer: () => 0,
  instant: () => '2026-03-05T14:30:00+01:00',
  date: () => '2026-03-05',
  flag: () => true,
};

/** A row with a hostile text wherever the table takes one. */
function hostileRow(table: Table): object {
  return Object.fromEntries(
    columnsOf(table).map(({ kind, name, words, min, max }) => [
      name,
      words?.[0] ??
        (kind === 'number' || kind === 'integer' ? Math.max(min ?? 0, Math.min(max ?? 1, 1)) : cells[kind](0)),
    ]),
  );
}

beforeAll(() => {
  const bundle = join(folder.path, 'bundle');
  mkdirSync(bundle);
  for (const table of inputTables) {
    const lines = [JSON.stringify(hostileRow(table))];
    if (table.name === 'jobs') lines.push(JSON.stringify({ job_id: evil, started_at: evil }));
    if (table.name === 'readings')
      for (let s = 2; s < 600; s += 10)
        lines.push(
          JSON.stringify({
            job_id: `${evil} 0`,
            elapsed_s: s,
            gauge: `${evil} 0`,
            vacuum_pa: 1000 / s,
            test_pressure_pa: 2e6,
          }),
        );
    writeFileSync(join(bundle, `${table.name}.ndjson`), lines.join('\n'));
  }
  writeFileSync(join(bundle, `people\u001b[31m\n.csv`), 'technician_id\n');
  mkdirSync(join(bundle, 'people'));
  writeFileSync(
    join(bundle, 'people', `a\u001b[31m\nb: 5 rows kept.csv`),
    `technician_id,${evil.replaceAll(/["\n]/g, '')}\n${evil.replaceAll(/["\n]/g, '')},1\n,2\n`,
  );
});
afterAll(folder.remove);

/** Everything but the ends of lines that a terminal would obey, or show otherwise than it is. */
const obeyed = /(?!\n)[\p{Cc}\p{Cf}\p{Zl}\p{Zp}]/u;

describe('texts of a file are texts, in every table', () => {
  test('they come in, and nothing of them is run as SQL', () => {
    const { status, stdout, stderr } = dryhold(['ingest', join(folder.path, 'bundle'), ...store]);
    expect([status, stderr]).toEqual([1, expect.stringContaining('left out columns') as string]);
    expect(stdout + stderr).not.toMatch(obeyed);
    // The name of a file adds no line of its own.
    expect(stdout.split('\n').filter((line) => line.startsWith('b: 5 rows kept'))).toEqual([]);
    const query = dryhold(['query', 'SELECT count(*) AS n FROM jobs', '--json', ...store]);
    expect(JSON.parse(query.stdout)).toEqual([{ n: 1 }]);
  });

  test.each([
    ['rejects'],
    ['rejects', '--json'],
    ['query', 'SELECT * FROM people'],
    ['query', 'SELECT * FROM people', '--json'],
    ['judge'],
    ['show', `${evil} 0`],
    ['show', `${evil} 0`, '--json'],
    ['show', `${evil} 1`],
  ])('a terminal obeys nothing of them: %s %s', (...args) => {
    const { status, stdout, stderr } = dryhold([...args.filter(Boolean), ...store]);
    expect(status).toBe(args[1]?.endsWith(' 1') ? 2 : 0);
    expect(stdout + stderr).not.toMatch(obeyed);
    if (args.includes('--json')) expect(JSON.stringify(JSON.parse(stdout))).toContain('DROP TABLE');
  });

  test('pages show them, and run nothing of them', () => {
    const job = join(folder.path, 'job.html');
    const report = join(folder.path, 'report');
    expect(dryhold(['show', `${evil} 0`, '--html', job, ...store]).status).toBe(0);
    const { status, stdout } = dryhold(['report', '--out', report, ...store]);
    expect(status).toBe(0);
    const names = readdirSync(report, { recursive: true }).map(String);
    const pages = names.filter((name) => name.endsWith('.html')).map((name) => join(report, name));
    expect(pages).toContain(stdout.trim());
    // The pages of the readers, a technician's and a crew's sheet, and the job's.
    expect(pages).toHaveLength(4 + 2 + 1);
    for (const page of [job, ...pages]) {
      const html = readFileSync(page, 'utf8');
      const has = (text: string) => html.includes(text);
      // There is nobody to call first.
      const isTold = page !== stdout.trim();
      expect(['&lt;script&gt;alert(1)', '<script>alert(1)', '<img src=x', 'unsafe-inline'].map(has)).toEqual([
        isTold,
        false,
        false,
        false,
      ]);
      // What turns text round or means nothing to a reader is shown as its number.
      expect(/[\u202a-\u202e\u0080-\u009f]|(?!\n)\p{Cc}/u.test(html.split('<script')[0])).toBe(false);
      for (const [, data = ''] of html.matchAll(/<script type="application\/json" id="\w+">(.*?)<\/script>/gs)) {
        expect(/[<>\u2028]/.test(data)).toBe(false);
        expect(JSON.parse(data)).toBeInstanceOf(Object);
      }
      // Only the page's own scripts may run: their hashes stand in its policy.
      expect(/script-src (&#39;none&#39;|&#39;sha256-)/.test(html)).toBe(true);
    }
  });
});
