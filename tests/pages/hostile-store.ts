import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parse } from 'csv-parse/sync';
import type { ColumnKind } from '../../src/records/column.ts';
import { columnsOf } from '../../src/records/table.ts';
import { inputTables } from '../../src/records/tables.ts';
import { simulateFleet } from '../../src/simulate/fleet.ts';
import { writeBundle } from '../../src/simulate/write-bundle.ts';
import { ingest } from '../../src/steps/ingest.ts';
import { judge } from '../../src/steps/judge.ts';
import { Store } from '../../src/store/store.ts';

/** What could run, break out of where it stands, turn round what follows, or be too long; the first two differ in case alone. */
export const hostileWords: readonly string[] = [
  'Same Name',
  'same name',
  '<script>window.hacked = 1</script>',
  `"'><img src=x onerror="window.hacked = 2">`,
  'W'.repeat(480),
  '\u202egnp.exe\u2066 turned',
  'bell\u0007 escape\u001b[31m next\u0085 line\u2028 end',
  ' two\tof\nfive\r\nlines\r ',
  '__proto__',
  'constructor',
  "') || (event.view.hacked = 3) || datum['x'] + `${window.hacked = 4}` {{7*7}}",
  '</script></style></title><!--<script>',
  'javascript:window.hacked=5//',
  `\\"]}; window.hacked = 6; //\\u0022 \\`,
  '👩‍🔧🏳️‍🌈 𝔘𝔫𝔦 ﷽',
  'half \ud83d emoji',
  '&lt;b&gt; &amp;amp; &#x3c;',
  '#first" autofocus onfocus="window.hacked = 7',
];

/** Ids keep what they were at their end, so that each stays one; names and sentences are the words alone. */
const isFree: ReadonlySet<string> = new Set(['display_name', 'reason', 'cause_found', 'note']);
/** What must stay as it is: facts hang on it. */
const isKept: ReadonlySet<string> = new Set(['refrigerant', 'jurisdiction', 'topic']);

/** A judged store of a simulated fleet, every text of which is one of the hostile words. */
export async function hostileStore(folder: string, jobs: number): Promise<Store> {
  const bundle = join(folder, 'bundle');
  await writeBundle(simulateFleet({ jobs, seed: 7, intervalS: 30, withPlant: true }), bundle);
  for (const file of readdirSync(bundle)) spoilFile(bundle, file);
  const store = await Store.open(join(folder, 'store'), 'write');
  await ingest(store, [bundle]);
  await judge(store);
  return store;
}

function spoilFile(bundle: string, file: string): void {
  const name = basename(file, '.csv');
  const table = inputTables.find((one) => one.name === name);
  const path = join(bundle, file);
  if (table === undefined) return rmSync(path);
  const kinds = new Map(columnsOf(table).map(({ name: column, kind }) => [column, kind]));
  const rows = parse<Record<string, string>>(readFileSync(path), { columns: true });
  const lines = rows.map((row, at) =>
    JSON.stringify(
      Object.fromEntries(
        Object.entries(row).flatMap(([column, cell]) =>
          cell === '' ? [] : [[column, spoilt(column, cell, kinds.get(column) ?? 'text', at)]],
        ),
      ),
    ),
  );
  rmSync(path);
  writeFileSync(join(bundle, `${name}.ndjson`), lines.join('\n'));
}

function spoilt(column: string, cell: string, kind: ColumnKind, at: number): string | number | boolean {
  if (kind === 'number' || kind === 'integer') return Number.isNaN(Number(cell)) ? cell : Number(cell);
  if (kind === 'flag') return cell === 'true';
  if (kind !== 'text') return cell;
  // One job in ten has a refrigerant that nobody knows.
  if (column === 'refrigerant' && at % 10 === 3) return hostileWords[2 + (at % 16)].slice(0, 400);
  if (isKept.has(column)) return cell;
  const word = hostileWords[numberOf(cell, at) % hostileWords.length];
  if (isFree.has(column))
    return column === 'display_name' ? hostileWords[at % hostileWords.length] : `${word} ${'long'.repeat(500)}`;
  return `${word} ${cell}`;
}

/** The same for the same id, in whichever table it stands. */
function numberOf(cell: string, at: number): number {
  const [digits] = /\d+/.exec(cell) ?? [];
  return digits === undefined ? cell.length + (cell.codePointAt(5) ?? at) : Number(digits);
}
