import fc from 'fast-check';
import type { Random } from '../../src/numerics/random.ts';
import { type Column, columnsOf, type Table } from '../../src/records/table.ts';
import { inputTables } from '../../src/records/tables.ts';
import { hostileTokens } from './hostile-tokens.ts';

const anyText = fc.oneof(
  fc.constantFrom(...hostileTokens),
  fc.string({ unit: 'binary', maxLength: 12 }),
  fc.string({ unit: 'grapheme', maxLength: 12 }),
);
const ids = fc.constantFrom('A', 'B', '-5', '=1+1', "'=1+1", 'a b', 'é');

function cellsOf(column: Column): fc.Arbitrary<unknown> {
  const sound: fc.Arbitrary<unknown> = {
    text: fc.oneof(ids, anyText),
    number: fc.oneof(fc.integer({ min: -10, max: 5000 }), fc.double()),
    integer: fc.integer(),
    instant: fc.constantFrom('2026-03-05T14:30:00+01:00', '2026-03-05T14:30:00Z'),
    date: fc.constantFrom('2026-03-05', '2024-02-29', '0001-01-01', '9999-12-31'),
    flag: fc.boolean(),
    choice: fc.constantFrom(...(column.words ?? ['x'])),
  }[column.kind];
  return fc.oneof(
    { weight: 12, arbitrary: sound },
    { weight: column.required ? 1 : 4, arbitrary: fc.constant('') },
    { weight: 1, arbitrary: anyText },
    { weight: 1, arbitrary: fc.jsonValue() },
  );
}

/** Rows of a table, mostly sound, with cells that are not, in columns that are mostly its own. */
function rowsOf(table: Table): fc.Arbitrary<{ names: string[]; rows: unknown[][] }> {
  const columns = columnsOf(table);
  const required = columns.filter((column) => column.required);
  return fc
    .subarray(columns.filter((column) => !column.required))
    .chain((some) =>
      fc.record({
        columns: fc.shuffledSubarray([...required, ...some], { minLength: required.length }),
        further: fc.option(anyText, { freq: 8 }),
      }),
    )
    .chain(({ columns: chosen, further }) =>
      fc.array(fc.tuple(...chosen.map(cellsOf), anyText), { maxLength: 30 }).map((cells) => ({
        names: [...chosen.map((column) => column.name), ...(further === null ? [] : [further])],
        rows: cells.map((row) => (further === null ? row.slice(0, -1) : row)),
      })),
    );
}

const arbitraries = new Map(inputTables.map((table) => [table.name, rowsOf(table)]));

/** A file of a bundle made from the columns of its table. */
export function generatedFile(
  seed: number,
  number: number,
  random: Random,
): { name: string; bytes: Buffer; table: string; what: string } {
  const table = random.choice(['readings', 'readings', ...arbitraries.keys()]);
  const [{ names, rows }] = fc.sample(arbitraries.get(table) as ReturnType<typeof rowsOf>, {
    seed: seed * 1_000_003 + number,
    numRuns: 1,
  });
  const isCsv = random.chance(0.6);
  const text = isCsv ? csvText(names, rows, random) : ndjsonText(names, rows);
  const mark = random.choice(['', '', '', '\ufeff', '\ufeff\ufeff']);
  const bytes = random.chance(0.05) ? Buffer.from(mark + text, 'utf16le') : Buffer.from(mark + text);
  const kind = isCsv ? 'csv' : 'ndjson';
  return { name: `${number}.${kind}`, bytes, table, what: `${table} generated as ${kind}` };
}

function csvText(names: readonly string[], rows: readonly (readonly unknown[])[], random: Random): string {
  const end = random.choice(['\n', '\n', '\r\n', '\r']);
  const cell = (value: unknown) => {
    const text = typeof value === 'string' ? value : (JSON.stringify(value) ?? '');
    return /[",\r\n]/.test(text) && !random.chance(0.1) ? `"${text.replaceAll('"', '""')}"` : text;
  };
  return [names, ...rows].map((row) => row.map(cell).join(',')).join(end) + random.choice([end, end, '']);
}

function ndjsonText(names: readonly string[], rows: readonly (readonly unknown[])[]): string {
  return rows
    .map((row) => JSON.stringify(Object.fromEntries(names.map((name, index) => [name, row[index]]))))
    .join('\n');
}
