import Table from 'cli-table3';
import { visibleLines } from '../units/visible-text.ts';

export interface TextTableOptions {
  /** What every line begins with. */
  readonly margin?: string;
  /** Columns that stand to the right, by place: figures that are to be compared. */
  readonly right?: readonly number[];
}

/** A quiet table for the terminal: no lines but one under the heads. */
export function textTable(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  { margin = '', right = [] }: TextTableOptions = {},
): string {
  const none = [
    'top',
    'top-mid',
    'top-left',
    'top-right',
    'bottom',
    'bottom-mid',
    'bottom-left',
    'bottom-right',
    'left',
    'right',
    'left-mid',
    'mid',
    'right-mid',
    'mid-mid',
  ];
  const table = new Table({
    head: heads.map(visibleLines),
    colAligns: heads.map((_, at) => (right.includes(at) ? 'right' : 'left')),
    chars: { ...Object.fromEntries(none.map((name) => [name, ''])), middle: '  ' },
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
  });
  table.push(...rows.map((row) => row.map(visibleLines)));
  return table
    .toString()
    .split('\n')
    .map((line) => `${margin}${line.trimEnd()}`)
    .join('\n');
}
