import { JSONParser, TokenType } from '@streamparser/json';
import { DryholdError } from '../errors.ts';
import { pathSteps, rowsBelow, valueAt } from './json-path.ts';
import {
  deepestNesting,
  type FileKind,
  type Layout,
  noTable,
  rawLimit,
  type SourceRow,
  type SourceRows,
} from './source-file.ts';
import { firstText, textBlocks } from './text-blocks.ts';

/**
 * One JSON document; rows are the elements of a list within it, read one by one, so that the document may be large. `line` is
 * the row's number. Only a source map can say where the rows are.
 */
export const json = {
  id: 'json' as const,
  extensions: ['.json'],
  inBundles: false,
  async rows(path: string, layout: Layout): Promise<SourceRows> {
    const steps = layout.rowsAt === undefined ? [] : pathSteps(layout.rowsAt);
    // The list of a whole document is its elements; an object is one row.
    const isList = /^\s*\[/.test(firstText(path, layout.encoding));
    const star = steps.indexOf('*');
    const outer = star >= 0 ? steps.slice(0, star) : steps;
    const listed = steps.length > 0 || isList;
    const inner = star >= 0 ? steps.slice(star + 1) : [];
    const place = ['$', ...outer].join('.');
    const rows = listed ? listedRows(path, layout, place, inner, star < 0) : documentRows(path, layout, '$', []);
    return { columns: [], rows };
  },
} satisfies FileKind;

/** The elements of the list at a place; where an object stands there, and nothing below it is asked for, that is the one row. */
async function* listedRows(
  path: string,
  layout: Layout,
  place: string,
  inner: readonly string[],
  mayBeOne: boolean,
): AsyncGenerator<SourceRow> {
  let isOne = false;
  if (mayBeOne)
    for await (const { isMember } of selected(path, layout, [`${place}.*`])) {
      isOne = isMember;
      break;
    }
  yield* documentRows(path, layout, isOne ? place : `${place}.*`, inner);
}

async function* documentRows(
  path: string,
  layout: Layout,
  selector: string,
  inner: readonly string[],
): AsyncGenerator<SourceRow> {
  let line = 0;
  for await (const { value } of selected(path, layout, [selector])) {
    for (const around of rowsBelow([value], inner, selector.endsWith('*'))) {
      line += 1;
      const raw = () => (JSON.stringify(around[0]) ?? '').slice(0, rawLimit);
      yield { line, cells: undefined, around, raw };
    }
  }
  if (line > 0) return;
  const problem = `holds no rows at ${layout.rowsAt ?? 'its top'}`;
  throw new DryholdError('file-unreadable', { path, problem }, noTable);
}

/**
 * Values that stand once in a document, by path; those that there are.
 *
 * @throws DryholdError `file-unreadable`
 */
export async function documentValues(
  path: string,
  layout: Layout,
  paths: readonly string[],
): Promise<Map<string, unknown>> {
  const found = new Map<string, unknown>();
  if (paths.length === 0) return found;
  // Places in lists are no selectors: the list is selected, and the place looked up in it.
  const selectors = new Map(
    paths.map((wanted) => {
      const steps = pathSteps(wanted);
      const list = steps.findIndex((step) => /^\d+$/.test(step));
      const outer = list < 0 ? steps : steps.slice(0, list);
      return [wanted, { outer: outer.join('.'), rest: steps.slice(outer.length).join('.') }];
    }),
  );
  const wanted = [...new Set([...selectors.values()].map(({ outer }) => ['$', outer].filter(Boolean).join('.')))];
  for await (const { value, at } of selected(path, layout, wanted)) {
    for (const [name, { outer, rest }] of selectors)
      if (at === outer) found.set(name, rest === '' ? value : valueAt([value], rest));
  }
  return found;
}

/** The values that selectors meet, in the order of the document, with the path of each without places in lists. */
async function* selected(
  path: string,
  layout: Layout,
  selectors: readonly string[],
): AsyncGenerator<{ value: unknown; at: string; isMember: boolean }> {
  const parser = new JSONParser({ paths: [...selectors], keepStack: false });
  let met: { value: unknown; at: string; isMember: boolean }[] = [];
  parser.onValue = ({ value, key, stack }) => {
    const keys = [...stack.slice(1).map((each) => each.key), key].filter((each) => typeof each === 'string');
    // What is not a list's element is kept by the parser as part of its parent: a copy is not needed, its parent goes.
    met.push({ value, at: keys.join('.'), isMember: typeof key === 'string' });
  };
  let depth = 0;
  parser.onToken = ({ token }) => {
    if (token === TokenType.LEFT_BRACE || token === TokenType.LEFT_BRACKET) depth += 1;
    else if (token === TokenType.RIGHT_BRACE || token === TokenType.RIGHT_BRACKET) depth -= 1;
    if (depth > deepestNesting) throw new Error(`it nests deeper than ${deepestNesting} levels`);
  };
  try {
    for await (const block of textBlocks(path, layout.encoding)) {
      parser.write(block);
      const now = met;
      met = [];
      yield* now;
    }
    if (!parser.isEnded) throw new Error('it breaks off in its midst');
    yield* met;
  } catch (error) {
    if (error instanceof DryholdError) throw error;
    const problem = `no JSON document (${(error as Error).message.split('\n')[0]})`;
    throw new DryholdError('file-unreadable', { path, problem }, error);
  }
}
