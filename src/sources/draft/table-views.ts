import { type ColumnView, columnView } from './column-view.ts';
import type { DraftTable } from './draft.ts';
import { unitOfHeader } from './header-unit.ts';
import type { NumberStyle } from './number-style.ts';

const unitWord = /(?:^| )(?:units?|uom|einheit|unite|unidad)$/;

/** The columns of a table with what they say; one that holds nothing but another's unit is told as that one's unit. */
export function tableViews(table: DraftTable, style: NumberStyle): ColumnView[] {
  const views = table.columns.map((column) => columnView(column, style));
  const units = new Map<string, { view: ColumnView; unit: string }>();
  for (const view of views) {
    const texts = new Set(view.texts);
    const [unit] = texts;
    if (!unitWord.test(view.plain) || texts.size !== 1 || unitOfHeader(unit) === undefined) continue;
    units.set(view.plain.replace(unitWord, ''), { view, unit });
  }
  if (units.size === 0) return views;
  const used = new Set<ColumnView>();
  const told = views.map((view) => {
    const own = units.get(view.plain) ?? units.get(view.plain.replace(/ ?(?:value|reading|wert|valeur|valor)$/, ''));
    if (own === undefined || own.view === view || !view.isNumber || view.column.unitBelow !== undefined) return view;
    used.add(own.view);
    return columnView({ ...view.column, unitBelow: own.unit, unitIsBeside: true }, style);
  });
  return told.filter((_, index) => !used.has(views[index]));
}
