import { DryholdError } from '../../errors.ts';
import type { NotebookOutput, ShownChart, ShownRow } from '../../pages/notebook/notebook-output.ts';

/** What is said of a table: what its figures are, in a few words. */
export interface TableWords {
  readonly title: string;
}

/** What is said of a chart. */
export interface ChartWords {
  /** The question that it answers. */
  readonly title: string;
  /** What it shows, in a sentence, for people who do not see it. */
  readonly description: string;
  /** About how high it is, axes included [px]; absent: 300. */
  readonly heightPx?: number;
}

/** How high a chart is where nobody says [px]. */
const usualHeightPx = 300;

/**
 * What a notebook shows, by what it is: a text, a list of rows, or a chart.
 *
 * @throws DryholdError `bad-usage` where the words are missing, or where a chart would load its rows
 */
export function shownOutput(
  shown: string | readonly ShownRow[] | ShownChart,
  words?: TableWords | ChartWords,
): NotebookOutput {
  if (typeof shown === 'string') return { kind: 'sentence', text: shown };
  const title = words?.title ?? '';
  if (Array.isArray(shown)) {
    if (title === '') throw wrong('a table needs a title: show(rows, { title: … })');
    return { kind: 'table', title, rows: shown as readonly ShownRow[] };
  }
  const { description = '', heightPx = usualHeightPx } = (words ?? {}) as Partial<ChartWords>;
  if (title === '' || description === '')
    throw wrong(
      'a chart needs the question that it answers and what it shows: show(chart, { title: …, description: … })',
    );
  if (loadsSomething(shown)) throw wrong('a chart loads its rows from a url; put them into it: data: { values: rows }');
  return { kind: 'chart', title, description, heightPx, chart: shown as ShownChart };
}

const wrong = (problem: string) => new DryholdError('bad-usage', { problem });

/** Whether any data of a chart lie elsewhere. */
function loadsSomething(part: unknown): boolean {
  if (typeof part !== 'object' || part === null) return false;
  if ('data' in part && typeof part.data === 'object' && part.data !== null && 'url' in part.data) return true;
  return Object.entries(part).some(([name, inner]) => name !== 'values' && loadsSomething(inner));
}
