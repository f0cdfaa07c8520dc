// How much of a drafted map a user must mend: `npm run bench:drafts`. For every map of the samples the edits that its draft
// takes until the sample's rows come out, where they are, and how many columns the map feeds then. Each sample is taken in
// by its edited drafts and compared; a row that does not come out fails the run.
import Table from 'cli-table3';
import {
  differencesBy,
  draftFor,
  type Edit,
  type EditedDraft,
  editedDraftsOf,
  editedMap,
  mappedSamples,
} from '../sample-drafts.ts';

interface Line {
  readonly name: string;
  readonly drafted: number;
  readonly columns: number;
  readonly edits: readonly Edit[];
}

const lines: Line[] = [];
let differences = 0;
for (const sample of mappedSamples) {
  const drafts = editedDraftsOf(sample);
  const maps = new Map<string, unknown>();
  for (const draft of drafts) {
    const drafted = await draftFor(sample, draft);
    const map = editedMap(drafted, draft.edits);
    maps.set(draft.instead_of, map);
    lines.push({ ...counted(draft, drafted, map), name: drafts.length > 1 ? `${sample}: ${draft.file}` : sample });
  }
  for (const difference of await differencesBy(sample, maps)) {
    differences += 1;
    console.error(`${sample}: ${difference}`);
  }
}
print();
process.exitCode = differences > 0 ? 1 : 0;

function counted({ edits }: EditedDraft, drafted: unknown, map: unknown): Omit<Line, 'name'> {
  return { edits, drafted: columnsOf(drafted), columns: columnsOf(map) };
}

/** How many columns all entries of a map feed. */
function columnsOf(map: unknown): number {
  const { rows } = map as { rows: { columns: object }[] };
  return rows.reduce((sum, { columns }) => sum + Object.keys(columns).length, 0);
}

function print(): void {
  const table = new Table({
    head: ['sample', 'edits', 'columns drafted', 'columns in the end', 'places'],
    colWidths: [32, 7, 10, 13, 78],
    colAligns: ['left', 'right', 'right', 'right', 'left'],
    wordWrap: true,
    style: { head: [], border: [] },
  });
  for (const { name, edits, drafted, columns } of lines)
    table.push([name, edits.length, drafted, columns, edits.map(placeOf).join(', ')]);
  const sum = (of: (line: Line) => number) => lines.reduce((total, line) => total + of(line), 0);
  const untouched = lines.filter(({ edits }) => edits.length === 0).length;
  table.push([
    `all ${lines.length}`,
    sum(({ edits }) => edits.length),
    sum(({ drafted }) => drafted),
    sum(({ columns }) => columns),
    `${untouched} of ${lines.length} drafts are right as they are`,
  ]);
  console.log(table.toString());
}

function placeOf({ op, path }: Edit): string {
  return `${{ add: '+', remove: '−', replace: '±' }[op]} ${path.slice(1).replaceAll('/', '.').replace('.columns.', '.')}`;
}
