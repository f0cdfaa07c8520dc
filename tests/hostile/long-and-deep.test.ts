import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { byFileName, mappedLog, readingsOf, takeIn } from './take-in.ts';

const long = 'x'.repeat(4.5 * 2 ** 20);
const many = (count: number, make: (at: number) => string) =>
  Array.from({ length: count }, (_, at) => make(at)).join('');

/** Takes a file in beside a good one. */
async function beside(name: string, content: string | Buffer, map?: object) {
  const good: Record<string, string> =
    map === undefined ? { 'in/readings/good.csv': readingsOf('good') } : { 'in/good.csv': mappedLog };
  const { sources, refused, jobs } = await takeIn(
    { ...good, [`in/${name}`]: content },
    map === undefined ? {} : { map },
  );
  expect(jobs.good).toBe(2);
  const path = join('in', ...name.split('/'));
  return { counts: sources[path], refused: refused[path] };
}

describe('lines without end', () => {
  const tooLong = 'is longer than 4 MiB';
  test.each([
    ['a row', 'readings/a.csv', readingsOf('A') + long, `the row on line 4 ${tooLong}`],
    ['a row of NDJSON', 'readings/a.ndjson', `{"job_id":"A","elapsed_s":1}\n{"job_id":"${long}"}`, `line 2 ${tooLong}`],
    ['a header', 'readings/a.csv', `${long}\n`, `the row on line 1 ${tooLong}`],
    [
      'a quote that is never closed',
      'readings/a.csv',
      `${readingsOf('A')}"${many(600_000, () => 'A,1,500\n')}`,
      `line 4 ${tooLong}; is a quote open`,
    ],
  ])('%s', async (_, name, content, problem) => {
    expect((await beside(name, content)).refused).toContain(problem);
  });

  test('before a table that a map looks for', async () => {
    const { refused } = await beside('a.csv', `${long}${long}\n${mappedLog}`, {
      ...byFileName,
      parts: undefined,
      file: { header_begins: 't' },
    });
    expect(refused).toContain(`a line that begins before byte 0 ${tooLong}`);
  });

  // The engine leaves out a last line of more than 2 MiB without a word.
  test.each([1.2, 2.5, 3.5])('a row of %f MiB is a row, in the midst and at the end', async (mib) => {
    const row = 'x'.repeat(mib * 2 ** 20);
    expect(await beside('readings/a.csv', `${readingsOf('A')}${row}\n${readingsOf('B').slice(26)}`)).toEqual({
      counts: [5, 4, 1],
      refused: undefined,
    });
    expect((await beside('readings/b.csv', readingsOf('A') + row)).counts).toEqual([3, 2, 1]);
    const large = `t,v\n${many(40_000, (at) => `${at},500\n`)}`;
    expect((await beside('c.csv', large + row, byFileName)).counts).toEqual([40_001, 40_000, 1]);
  });
});

describe('tables without end', () => {
  test('a million columns', async () => {
    const wide = `job_id,elapsed_s${many(1e6, () => ',x')}\n`;
    expect((await beside('readings/a.csv', wide)).refused).toBe(
      'line 1 has 1000002 cells, more than the 4096 that a table may have; is it parted by something else?',
    );
    expect((await beside('a.csv', wide, byFileName)).refused).toContain('line 1 has 1000002 cells');
  });

  test('a row of a million cells is a refused row', async () => {
    const { counts } = await beside('readings/a.csv', `${readingsOf('A')}A,20,400${many(1e6, () => ',5')}\nA,30,300\n`);
    expect(counts).toEqual([4, 3, 1]);
  });

  test('NDJSON with a name of its own in each line', async () => {
    const lines = many(20_000, (at) => `{"job_id":"A","elapsed_s":${at},"x${at}":1}\n`);
    expect((await beside('readings/a.ndjson', lines)).refused).toContain('its lines have more than 1000 names');
  });
});

describe('nesting without end', () => {
  const map = (file: object, column: string) => ({
    file,
    rows: [{ table: 'readings', columns: { job_id: { file_name: true }, elapsed_s: { column } } }],
  });
  const deep = (depth: number) => '['.repeat(depth) + ']'.repeat(depth);
  const objects = (depth: number) => `${'{"t":'.repeat(depth)}1${'}'.repeat(depth)}`;

  test.each([
    ['lists', `[${deep(300_000)}]`],
    ['objects', objects(300_000)],
    ['what is never closed', '[{"t":'.repeat(300_000)],
  ])('a document of %s', async (_, content) => {
    const { refused } = await takeIn({ 'in/a.json': content }, { map: map({ kind: 'json' }, 't') });
    expect(refused).toEqual({ [join('in', 'a.json')]: 'no JSON document (it nests deeper than 500 levels)' });
  });

  test('a line of NDJSON is a refused row, of a bundle and through a map', async () => {
    const lines = `{"job_id":"A","elapsed_s":0,"note":${deep(100_000)}}\n{"job_id":"A","elapsed_s":1,"t":1}\n`;
    expect((await beside('readings/a.ndjson', lines)).counts).toEqual([2, 1, 1]);
    const { sources } = await takeIn({ 'in/a.ndjson': lines }, { map: map({ kind: 'ndjson' }, 't') });
    expect(sources[join('in', 'a.ndjson')]).toEqual([2, 1, 1]);
  });

  test('what nests where a text should stand is a refused row, and the message stays short', async () => {
    const lines = `{"job_id":"A","started_at":${deep(400)}}\n{"job_id":"A","started_at":"${'x'.repeat(1e6)}"}\n`;
    await takeIn(
      { 'in/jobs.ndjson': lines },
      {
        look: async (store) => {
          const rejects = await store.rows<{ detail: string }>('SELECT detail FROM rejects');
          expect(rejects).toHaveLength(2);
          for (const { detail } of rejects) expect(detail.length).toBeLessThan(200);
        },
      },
    );
  });
});

describe('characters', () => {
  test.each([
    ['two byte order marks', Buffer.from(`\uFEFF\uFEFF${readingsOf('A')}`)],
    ['UTF-16, little end first', Buffer.from(`\uFEFF${readingsOf('A')}`, 'utf16le')],
    ['UTF-16, big end first', Buffer.from(`\uFEFF${readingsOf('A')}`, 'utf16le').swap16()],
  ])('%s', async (_, content) => {
    expect((await beside('readings/a.csv', content)).counts).toEqual([2, 2, 0]);
  });

  test('UTF-16 that does not say so, and NUL bytes', async () => {
    const bare = Buffer.from(readingsOf('A'), 'utf16le');
    expect((await beside('readings/a.csv', bare)).refused).toBe('no text file: it holds NUL bytes');
    expect((await beside('readings/a.csv', `${readingsOf('A')}A\0,20,5\n`)).counts).toEqual([3, 2, 1]);
  });

  test('half a character is refused: two of them would become one job', async () => {
    const lines = ['\\ud800', '\\ud801', 'x\\udfff', '\\ud83d\\ude00'].map(
      (id) => `{"job_id":"${id}","elapsed_s":1}\n`,
    );
    expect((await beside('readings/a.ndjson', lines.join(''))).counts).toEqual([4, 1, 3]);
  });
});

// At such a byte the engine breaks down where it reads fewer columns than stand before it.
test('a byte of another encoding behind a column that the table does not have', async () => {
  const lines = (job: string, mark: string) =>
    `job_id,elapsed_s,ours,phase_mark\n${job},0,1,pull-down\n${job},10,2,${mark}\n`;
  const { sources, refused, jobs } = await takeIn({
    'in/readings/odd.csv': Buffer.from(lines('odd', 'h\xe4lt'), 'latin1'),
    'in/readings/good.csv': lines('good', 'hold'),
  });
  expect(refused).toEqual({});
  expect(sources[join('in', 'readings', 'odd.csv')]).toEqual([2, 1, 1]);
  expect(jobs).toEqual({ good: 2, odd: 1 });
});
