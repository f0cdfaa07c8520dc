import type { Doubt, LeftOut, WrittenCell, WrittenEntry } from './draft.ts';
import { isNumberText } from './cell-shape.ts';
import type { ColumnView } from './column-view.ts';
import type { DraftedCell } from './number-cell.ts';

/** Collects what a draft says beside its entries. */
export class DraftNotes {
  readonly doubts: Doubt[] = [];
  readonly leftOut: LeftOut[] = [];
  readonly nullWords = new Set<string>();
  readonly overWords = new Set<string>();
  needsZone = false;
  needsSite = false;

  /** Notes the words of a column of numbers. */
  words(view: ColumnView, place: string, hasOver: boolean): void {
    for (const word of view.nullWords) this.nullWords.add(word);
    if (hasOver) for (const word of view.overWords) if (word !== 'over') this.overWords.add(word);
    if (view.otherWords.length === 0) return;
    const numbers = view.otherWords.filter((word) => isNumberText(word));
    if (numbers.length > 0) {
      const shown = numbers.map((word) => JSON.stringify(word)).join(', ');
      const text = `${place} also holds ${shown}, written otherwise than the other numbers; such rows are refused`;
      this.doubts.push({ where: 'file.decimal', text });
    }
    const strange = view.otherWords.filter((word) => !isNumberText(word) && !/^-?Infinity$/.test(word));
    if (strange.length === 0) return;
    for (const word of strange) this.nullWords.add(word);
    const shown = strange.map((word) => JSON.stringify(word)).join(', ');
    this.doubts.push({
      where: 'null_words',
      text: `${place} also holds ${shown}, taken for "not read"; if it means above the range, move it to "over_words"`,
    });
  }
}

/** An entry in the making. */
export class EntryDraft {
  readonly table: string;
  readonly columns = new Map<string, DraftedCell>();
  readonly extra: Pick<WrittenEntry, 'part' | 'once' | 'only'>;

  constructor(table: string, extra: Pick<WrittenEntry, 'part' | 'once' | 'only'> = {}) {
    this.table = table;
    this.extra = extra;
  }

  set(name: string, cell: DraftedCell | WrittenCell): void {
    this.columns.set(name, 'cell' in cell ? cell : { cell, doubts: [] });
  }

  has(name: string): boolean {
    return this.columns.has(name);
  }

  written(): WrittenEntry {
    return {
      table: this.table,
      ...this.extra,
      columns: Object.fromEntries([...this.columns].map(([name, { cell }]) => [name, cell])),
    };
  }

  /** What is unsure of it, with the places in the map. */
  doubts(index: number): Doubt[] {
    return [...this.columns].flatMap(([name, { doubts }]) =>
      doubts.map(({ at, text }) => ({ where: `rows.${index}.columns.${name}${at}`, text })),
    );
  }
}
