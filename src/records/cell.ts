import type { ColumnKind } from './column.ts';

/** A cell as typed value, or what is wrong with it. */
export type ParsedCell = { value: string | number | boolean } | { problem: string };

const numberPattern = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/**
 * A cell's text as a value of the column's kind. Spaces around it do not count; ranges and words are the schema's to judge.
 *
 * @param over whether the word `over` may stand for a number
 * @example parseCell('number', ' 12.5 ') // { value: 12.5 }
 */
export function parseCell(kind: ColumnKind, cell: string, over = false): ParsedCell {
  const trimmed = cell.trim();
  switch (kind) {
    case 'number':
    case 'integer': {
      if (over && trimmed === 'over') return { value: 'over' };
      if (!numberPattern.test(trimmed)) return { problem: `not a number: ${quoted(cell)}` };
      const value = Number(trimmed);
      return Number.isFinite(value) ? { value } : { problem: `number too large: ${quoted(cell)}` };
    }
    case 'flag':
      if (trimmed === 'true' || trimmed === 'false') return { value: trimmed === 'true' };
      return { problem: `neither true nor false: ${quoted(cell)}` };
    default:
      if (trimmed.includes('\0')) return { problem: `holds a NUL character: ${quoted(cell)}` };
      // Two of them would become one and the same text.
      if (!trimmed.isWellFormed()) return { problem: `holds half a character: ${quoted(cell)}` };
      return { value: trimmed };
  }
}

/** A text in quotes, as a message shows it: never long. */
export function quoted(cell: string): string {
  return JSON.stringify(cell.length > 60 ? `${cell.slice(0, 60)}…` : cell);
}
