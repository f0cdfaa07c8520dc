import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { documentValues, json } from '../../src/sources/json.ts';
import type { Layout } from '../../src/sources/source-file.ts';
import { tempFolder, writeFiles } from '../store/temp-store.ts';

const file = (content: string | Buffer) => join(writeFiles(tempFolder(), { 'a.json': content }), 'a.json');

async function read(content: string | Buffer, layout: Layout = {}) {
  const rows = [];
  for await (const { line, around } of (await json.rows(file(content), layout)).rows)
    rows.push([line, ...(around ?? [])]);
  return rows;
}

const document = JSON.stringify({
  made: { by: 'a', lids: [17, { no: 18 }] },
  job: { id: 'A', at: 5 },
  runs: [
    { no: 1, points: [{ pa: 1 }, { pa: 2 }] },
    { no: 2, points: [] },
    { no: 3, points: [{ pa: 3 }] },
  ],
});
const [one, two, three] = (JSON.parse(document) as { runs: object[] }).runs;

describe('where rows are', () => {
  test.each<[string, string | undefined, unknown[]]>([
    [
      '[{"a":1},{"a":2}]',
      undefined,
      [
        [1, { a: 1 }],
        [2, { a: 2 }],
      ],
    ],
    [
      '  \n[[1,2],[3]]',
      undefined,
      [
        [1, [1, 2]],
        [2, [3]],
      ],
    ],
    // A list within a list is a row whose cells have no names.
    [
      '{"log":{"data":[[0,9000],[10,8000]]}}',
      'log.data',
      [
        [1, [0, 9000]],
        [2, [10, 8000]],
      ],
    ],
    ['\uFEFF{"a":1}', undefined, [[1, { a: 1 }]]],
    [
      document,
      'runs',
      [
        [1, one],
        [2, two],
        [3, three],
      ],
    ],
    [
      document,
      'runs.*',
      [
        [1, one],
        [2, two],
        [3, three],
      ],
    ],
    [
      document,
      'runs.*.points',
      [
        [1, { pa: 1 }, one],
        [2, { pa: 2 }, one],
        [3, { pa: 3 }, three],
      ],
    ],
    [
      document,
      'runs.*.points.*',
      [
        [1, { pa: 1 }, one],
        [2, { pa: 2 }, one],
        [3, { pa: 3 }, three],
      ],
    ],
    // An object is the one row of its place, as it is in NDJSON.
    [document, 'job', [[1, { id: 'A', at: 5 }]]],
  ])('%#', async (content, rowsAt, rows) => {
    expect(await read(content, rowsAt === undefined ? {} : { rowsAt })).toEqual(rows);
  });

  test('UTF-16', async () => {
    expect(await read(Buffer.from('\uFEFF[{"a":"µ"}]', 'utf16le'))).toEqual([[1, { a: 'µ' }]]);
  });

  test('a long list comes block by block, in its order', async () => {
    const long = Array.from({ length: 200_000 }, (_, index) => ({ index }));
    const rows = await read(JSON.stringify({ long }), { rowsAt: 'long' });
    expect(rows.length).toBe(200_000);
    expect(rows.at(-1)).toEqual([200_000, { index: 199_999 }]);
  });
});

test.each([
  ['{"runs":[]}', 'runs', 'holds no rows at runs'],
  ['{"runs":[1]}', 'walks', 'holds no rows at walks'],
  ['[]', undefined, 'holds no rows at its top'],
  ['[{"a":1},{"a":', undefined, 'no JSON document (it breaks off in its midst)'],
  ['', undefined, 'no JSON document (it breaks off in its midst)'],
  ['[{"a":1},}', undefined, 'no JSON document (Unexpected RIGHT_BRACE'],
  ['[1] 2', undefined, 'no JSON document (Unexpected "2"'],
  ['a,b\n1,2\n', undefined, 'no JSON document (Unexpected "a"'],
])('what cannot be read is told: %s', async (content, rowsAt, problem) => {
  await expect(read(content, rowsAt === undefined ? {} : { rowsAt })).rejects.toThrow(problem);
});

test('values that stand once, by path; what is not there is left out', async () => {
  const paths = [
    'made.by',
    'made.lids.0',
    'made.lids.1.no',
    'job',
    'job.id',
    'runs.2.points.0.pa',
    'none.at.all',
    'made.lids.7',
  ];
  expect([...(await documentValues(file(document), {}, paths))].filter(([, value]) => value !== undefined)).toEqual(
    expect.arrayContaining([
      ['made.by', 'a'],
      ['made.lids.0', 17],
      ['made.lids.1.no', 18],
      ['job', { id: 'A', at: 5 }],
      ['job.id', 'A'],
      ['runs.2.points.0.pa', 3],
    ]),
  );
  expect(await documentValues(file('no JSON'), {}, [])).toEqual(new Map());
  await expect(documentValues(file('{"a":'), {}, ['a'])).rejects.toThrow('breaks off');
});
