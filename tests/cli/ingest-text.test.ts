import { expect, test } from 'vitest';
import { remarkLines, resultLines } from '../../src/cli/ingest-text.ts';
import type { IngestResult } from '../../src/steps/ingest-result.ts';

const source = (file: string, rejected = 0, table = 'readings') => ({
  file,
  sha256: 'x',
  table_name: table,
  rows_read: 1200,
  rows_kept: 1200 - rejected,
  rows_rejected: rejected,
  rows_repeated: 0,
});

const result = (further: Partial<IngestResult>): IngestResult => ({
  sources: [],
  alreadyIn: [],
  unknownColumns: [],
  refusedFiles: [],
  leftAside: [],
  namedAfterNone: [],
  overruled: [],
  ...further,
});

test('a few files have a line each, with the table where a file feeds several', () => {
  const sources = [source('a.csv'), source('b.csv', 7, 'jobs'), source('b.csv')];
  expect(resultLines(result({ sources, alreadyIn: ['c.csv'] }))).toEqual([
    'a.csv: 1\u00a0200 rows kept',
    'b.csv: jobs: 1\u00a0193 rows kept, 7 refused',
    'b.csv: readings: 1\u00a0200 rows kept',
    'c.csv: already in, left alone',
  ]);
});

test('of very many files those with refused rows are told, and all together', () => {
  const sources = Array.from({ length: 2000 }, (_, file) => source(`${file}.csv`, file % 10 === 0 ? 1 : 0));
  const lines = resultLines(result({ sources, alreadyIn: ['c.csv'] }));
  expect(lines).toHaveLength(43);
  expect(lines[0]).toBe('0.csv: 1\u00a0199 rows kept, 1 refused');
  expect(lines.slice(-3)).toEqual([
    'and 160 more files with refused rows',
    '2\u00a0000 files: 2\u00a0399\u00a0800 rows kept, 200 refused',
    '1 file already in, left alone',
  ]);
});

test('refused files are told even when quiet, and no more than a screen of them', () => {
  const refusedFiles = Array.from({ length: 50 }, (_, file) => ({ file: `${file}.csv`, detail: 'empty' }));
  const all = result({ refusedFiles, sources: [source('a.csv', 2)], leftAside: ['notes.md'] });
  expect(remarkLines(all, 'ours', true)).toHaveLength(41);
  expect(remarkLines(all, 'ours', true).at(-1)).toBe('and 10 more files refused');
  expect(remarkLines(all, 'ours', false)).toEqual(
    expect.arrayContaining([
      '1 file left aside, for which no map is meant, such as notes.md',
      '2 rows refused; to see which, and why: dryhold rejects --store ours',
    ]),
  );
});

test('who takes in the same folder again hears how many files are in already, and of files that are named after no table', () => {
  const all = result({
    sources: [source('d.csv')],
    alreadyIn: ['a.csv', 'b.csv', 'c.csv', 'e.csv'],
    namedAfterNone: ['drop/export.csv', 'drop/old.csv'],
  });
  expect(resultLines(all)).toEqual(['d.csv: 1\u00a0200 rows kept', '4 files already in, left alone']);
  expect(remarkLines(all, 'ours', false)).toEqual([
    '2 files left aside, named after no table, such as drop/export.csv; a file of another layout comes in by a source map: dryhold map FILE',
  ]);
});
