import Table from 'cli-table3';
import { visibleLines } from '../units/visible-text.ts';

/** A quiet table for the terminal: no lines but one under the heads. */
export function textTable(heads: readonly string[], rows: readonly (readonly string[])[]): string {
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
    chars: { ...Object.fromEntries(none.map((name) => [name, ''])), middle: '  ' },
    style: { head: [], border: [], 'padding-left': 0, 'padding-right': 0 },
  });
  table.push(...rows.map((row) => row.map(visibleLines)));
  return table
    .toString()
    .split('\n')
    .map((line) => line.trimEnd())
    .join('\n');
}
