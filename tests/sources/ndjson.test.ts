import { join } from 'node:path';
import { expect, test } from 'vitest';
import { ndjson } from '../../src/sources/ndjson.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

async function read(text: string) {
  const source = await ndjson.rows(join(writeFiles(tempFolder(), { 'a.ndjson': text }), 'a.ndjson'), {});
  const rows = [];
  for await (const { line, cells, problem } of source.rows) rows.push([line, problem ?? cells]);
  return { columns: source.columns, rows };
}

test('columns are those of all lines; only line feeds part lines; a byte order mark does not count', async () => {
  expect(await read('\uFEFF{"a":1}\r\n\n{"b":"x\u2028y","a":null}')).toEqual({
    columns: ['a', 'b'],
    rows: [
      [1, [1, undefined]],
      [3, [null, 'x\u2028y']],
    ],
  });
});

test('what is no object is told by line, and numbers beyond a double stay text', async () => {
  expect(await read('{"a":1e400}\n[1]\nnull\n"a"\n{"a":\n')).toEqual({
    columns: ['a'],
    rows: [[1, ['Infinity']], ...[2, 3, 4, 5].map((line) => [line, 'not a JSON object'])],
  });
});

test('an empty file has no rows; one without any object cannot be read', async () => {
  expect(await read('\n')).toEqual({ columns: [], rows: [] });
  await expect(read('no\n')).rejects.toThrow('no line holds a JSON object');
  await expect(read(`{"a":"${'x'.repeat(5e6)}`)).rejects.toThrow('line 1 is longer than 4 MiB');
});
