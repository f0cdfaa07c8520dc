import { type Html, html } from './html.ts';

/** A table of figures: the first column names the rows. */
export interface FigureTable {
  readonly caption: string;
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** A last row over all others. */
  readonly total?: readonly string[] | undefined;
  /** Columns that are text, by place; the others are figures. */
  readonly texts?: readonly number[];
}

/** A table that scrolls sideways by itself where the page is narrow. */
export function figureTable({ caption, heads, rows, total, texts = [] }: FigureTable): Html {
  const cell = (text: string, at: number) =>
    at === 0
      ? html`<th scope="row">${text}</th>`
      : texts.includes(at)
        ? html`<td class="text">${text}</td>`
        : html`<td>${text}</td>`;
  // The corner over the names of the rows is no head where nothing is said in it.
  const headCell = (head: string, at: number) =>
    head === ''
      ? html`<td></td>`
      : texts.includes(at)
        ? html`<th scope="col" class="text">${head}</th>`
        : html`<th scope="col">${head}</th>`;
  return html`<div class="scroll figures" tabindex="0" role="region" aria-label="${caption}">
<table><caption>${caption}</caption>
<thead><tr>${heads.map(headCell)}</tr></thead>
<tbody>${rows.map((row) => html`<tr>${row.map(cell)}</tr>`)}${total !== undefined && html`<tr class="total">${total.map(cell)}</tr>`}</tbody></table></div>`;
}
