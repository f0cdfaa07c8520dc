import { describe, expect, test } from 'vitest';
import { pathSteps, rowsBelow, valueAt } from '../../src/sources/json-path.ts';

const log = {
  id: 'a',
  runs: [
    { no: 1, points: [{ pa: [5, 6] }, { pa: [7] }] },
    { no: 2, points: [] },
  ],
};

test('steps of a path', () => {
  expect(pathSteps('jobs.*.readings.0')).toEqual(['jobs', '*', 'readings', '0']);
  expect(pathSteps('')).toEqual([]);
});

test.each<[unknown, string, unknown[]]>([
  [log, '', [log]],
  [[1, 2], '', [1, 2]],
  [[[1, 2], [3]], '', [[1, 2], [3]]],
  [log, 'runs', log.runs],
  [log, 'runs.*', log.runs],
  [log, 'runs.*.no', [1, 2]],
  [log, 'runs.*.points', [{ pa: [5, 6] }, { pa: [7] }]],
  [log, 'runs.*.points.*.pa', [5, 6, 7]],
  [log, 'runs.0.points', [{ pa: [5, 6] }, { pa: [7] }]],
  [log, 'nothing', [undefined]],
])('rows below %j at %s', (value, path, rows) => {
  expect([...rowsBelow([value], pathSteps(path))].map(([row]) => row)).toEqual(rows);
});

describe('what a path leads to from a row', () => {
  const [around = []] = rowsBelow([log], ['runs', '*', 'points']);
  test.each<[string | number, unknown]>([
    ['pa.1', 6],
    ['pa', [5, 6]],
    ['^.no', 1],
    ['^^.id', 'a'],
    ['^^.runs.1.no', 2],
    ['^^^.id', undefined],
    ['pa.length', undefined],
    ['pa.9', undefined],
    ['nothing.at.all', undefined],
    ['toString', undefined],
  ])('%s', (path, value) => {
    expect(valueAt(around, path)).toEqual(value);
  });

  test('a name with dots is tried as it stands first; a position counts in a list from 1', () => {
    expect(valueAt([{ 'a.b': 1, a: { b: 2 } }], 'a.b')).toBe(1);
    expect(valueAt([[7, 8]], 2)).toBe(8);
    expect(valueAt([], 'a')).toBeUndefined();
  });
});
