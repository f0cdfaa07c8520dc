import { type ChartColours, pageColours } from '../../charts/chart-colours.ts';
import type { NotebookOutput, ShownChart, ShownRow } from '../../pages/notebook/notebook-output.ts';
import { DryholdError } from '../../errors.ts';
import { type PlainRow, Store } from '../../store/store.ts';
import type { UnitSystem } from '../../units/display.ts';
import { type PeopleNames, peopleNames } from '../people-names.ts';
import { type NotebookRun, notebookRun } from './notebook-run.ts';
import { printedOutput } from './printed-output.ts';
import { type ChartWords, shownOutput, type TableWords } from './shown-output.ts';

/**
 * Rows of the store by a statement of SQL, as plain objects: counts as numbers, days as ISO 8601 text, null for what is not known.
 *
 * @param values for `$1`, `$2`, … of the statement
 * @throws DryholdError `query-refused` with what the engine says
 */
export type Query = <Row extends object = PlainRow>(
  sql: string,
  values?: (string | number | boolean | null)[],
) => Promise<Row[]>;

/** Shows something of a notebook: a sentence, the rows of a table, or a chart. */
export interface Show {
  (sentence: string): void;
  (rows: readonly ShownRow[], words: TableWords): void;
  (chart: ShownChart, words: ChartWords): void;
}

/** What a notebook works with. */
export interface Notebook {
  /** The shop's store, open to be read: for the steps, such as `callbackReport(store, { codes })`. */
  readonly store: Store;
  readonly query: Query;
  readonly show: Show;
  /** Which units its reader wants: for `massText` and its like. */
  readonly units: UnitSystem;
  /** Whether people go by code; to be handed on to the steps. */
  readonly codes: boolean;
  /** How people are named; under `--codes` no other name or id of theirs may be shown. */
  readonly names: PeopleNames;
  /** Colours by what they mean, light on paper and dark on a dark screen; for charts. */
  readonly colours: ChartColours;
}

/**
 * Opens the store for a notebook.
 *
 * Run by `dryhold notebook` it is the store that was asked for, and what is shown goes into the page. Run in any other way, such as `node`, it is
 * the one in `DRYHOLD_STORE`, or `./dryhold-store`, and what is shown is printed as text.
 *
 * @throws DryholdError as `Store.open`; `bad-usage` by `show` for a chart that would have to load something
 *
 * @example
 * const { query, show } = await openNotebook();
 * show(await query('SELECT crew_id, count(*) AS jobs FROM jobs GROUP BY ALL ORDER BY ALL'), { title: 'Jobs by crew' });
 */
export async function openNotebook(): Promise<Notebook> {
  const run = notebookRun() ?? ownRun();
  const { units, codes, storeFolder } = run;
  const store = await Store.open(storeFolder, 'read');
  run.atEnd(() => store.close());
  return {
    store,
    query: queryOf(store),
    show: (...shown: Parameters<typeof shownOutput>) => run.show(shownOutput(...shown)),
    units,
    codes,
    names: await peopleNames(store, codes),
    colours: pageColours,
  };
}

/** The engine's own errors do not say from which line they were asked for. */
function queryOf(store: Store): Query {
  return async <Row extends object>(sql: string, values?: (string | number | boolean | null)[]) => {
    try {
      return (await store.rows(sql, values)) as Row[];
    } catch (error) {
      throw new DryholdError('query-refused', { problem: (error as Error).message }, error);
    }
  };
}

/** For a notebook that nobody runs but Node. */
function ownRun(): NotebookRun {
  return {
    storeFolder: process.env.DRYHOLD_STORE ?? './dryhold-store',
    units: 'ip',
    codes: false,
    show: (output: NotebookOutput) => console.log(printedOutput(output)),
    atEnd: (close) => process.once('beforeExit', () => void close()),
  };
}
