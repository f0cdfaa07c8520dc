import { describe, expect, test } from 'vitest';
import {
  columnPosition,
  columnUnit,
  type FileColumns,
  unitBehind,
  withoutUnit,
} from '../../src/sources/map-columns.ts';

const file: FileColumns = {
  mapPath: 'map.json',
  path: 'log.csv',
  columns: ['At', 'Deep (µm)', 'Pipe [deg F]', 'Push', 'At', 'Far {furlong}', 'Pull (psi)'],
  units: ['', '(micron)', '°C', 'psi g', 's', 'furlong'],
};
const place = (column: string | number, unit?: string) => columnPosition(file, column, 'rows.0.columns.x', unit);
const unit = (position: number, word?: string) => columnUnit(file, position, word, 'rows.0.columns.x');
const misfit = (problem: string) => `map.json: source map is wrong at rows.0.columns.x: log.csv ${problem}`;

test.each([
  ['Deep (µm)', 'Deep', 'µm'],
  ['Deep [ Pa ] ', 'Deep', 'Pa'],
  ['Deep {mbar}', 'Deep', 'mbar'],
  ['Pipe (top) (°C)', 'Pipe (top)', '°C'],
  ['Deep', 'Deep', undefined],
  ['(s)', '', 's'],
])('the unit behind %s', (name, plain, behind) => {
  expect([withoutUnit(name), unitBehind(name)]).toEqual([plain, behind]);
});

describe('which column', () => {
  test('by name, by position, without the unit behind the name', () => {
    expect([place('Deep (µm)'), place(4), place('Pipe', 'in header'), place('Deep', 'in header')]).toEqual([
      1, 3, 2, 1,
    ]);
  });

  test.each<[string | number, string | undefined, string]>([
    ['Deep', undefined, `has no column "Deep"; it has ${file.columns.join(', ')}`],
    [8, undefined, `has no column 8; it has ${file.columns.join(', ')}`],
    ['At', undefined, 'has several columns "At"; name it by its position, from 1'],
  ])('%s is no column', (column, of, problem) => {
    expect(() => place(column, of)).toThrow(misfit(problem));
  });

  test('a wide file is not listed whole', () => {
    const columns = Array.from({ length: 1000 }, (_, index) => String(index + 1));
    expect(() => columnPosition({ ...file, columns }, 'x', 'rows.0.columns.x')).toThrow('59, 60, … (1000)');
  });
});

describe('which unit', () => {
  test('the map’s own, one behind the name, one below it', () => {
    expect([unit(0, 'kPa'), unit(0), unit(1, 'in header'), unit(2, 'in header')]).toEqual([
      'kPa',
      undefined,
      'micron',
      'F',
    ]);
    expect([unit(1, 'in unit row'), unit(2, 'in unit row'), unit(3, 'in unit row')]).toEqual(['micron', 'C', 'psig']);
  });

  test.each<[number, string, string]>([
    [0, 'in header', 'tells no unit for column 1'],
    [0, 'in unit row', 'tells no unit for column 1'],
    [6, 'in unit row', 'tells no unit for column 7'],
    [5, 'in header', 'has unit "furlong" for column 6, which leaves a doubt: write the unit in the map'],
    // A bare psi does not say what it counts from.
    [6, 'in header', 'has unit "psi" for column 7, which leaves a doubt: write the unit in the map'],
  ])('column %i %s', (position, word, problem) => {
    expect(() => unit(position, word)).toThrow(misfit(problem));
  });
});
