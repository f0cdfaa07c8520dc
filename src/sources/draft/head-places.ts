import { isNumberText } from './cell-shape.ts';
import type { GridLine, HeadPlace } from './draft.ts';
import { unitOfHeader } from './header-unit.ts';

/** Lines further down are not looked through for values that stand once. */
const mostLines = 200;

/**
 * The values with a label in the lines around a table: `Job: J-1`, or the label in one cell and the value in the next.
 *
 * @param lines lines that are no part of a table
 * @param sheet which sheet they stand in, where a map must say so
 */
export function headPlaces(lines: readonly GridLine[], sheet?: string | number): HeadPlace[] {
  const places: HeadPlace[] = [];
  const labels = new Set<string>();
  const add = (label: string, value: string, unit?: string) => {
    const plain = label.replace(/\s*[:=]\s*$/, '').trim();
    if (plain === '' || value === '' || labels.has(plain) || plain.length > 60) return;
    labels.add(plain);
    places.push({
      label: `${plain.replace(/^[#*;!/]+\s*/, '')}${unit === undefined ? '' : ` (${unit})`}`,
      at: { after: plain, ...(sheet === undefined ? {} : { sheet }) },
      value,
    });
  };
  for (const { line, cells } of lines) {
    if (line > mostLines) break;
    const filled = cells.filter((cell) => cell !== '');
    for (let index = 0; index < filled.length; index += 1) {
      const [, label, value] = /^([^:=]{1,60}?)\s*[:=]\s*(\S.*)$/.exec(filled[index]) ?? [];
      // A time of day has colons, and no label.
      if (label !== undefined && !/^\W*\d+$/.test(label) && !/^\d/.test(label)) add(label, value.trim());
      else if (index + 1 < filled.length && isLabel(filled[index])) {
        const unit = isNumberText(filled[index + 1]) ? unitOfHeader(filled[index + 2] ?? '') : undefined;
        add(filled[index], filled[index + 1], unit?.text);
        index += unit === undefined ? 1 : 2;
      }
    }
  }
  return places;
}

function isLabel(text: string): boolean {
  return /\p{L}/u.test(text) && !/^\d{1,4}[-/.:]/.test(text);
}
