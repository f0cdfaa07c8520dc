import type { GlossaryEntry } from './glossary.ts';
import { type Column, columnsOf, type Table } from './table.ts';

/** The words and then every table, column by column, as one Markdown page. */
export function glossaryPage(
  entries: readonly GlossaryEntry[],
  inputTables: readonly Table[],
  outputTables: readonly Table[],
): string {
  const words = [['word', 'meaning'], ['---', '---'], ...entries.map(({ word, meaning }) => [`**${word}**`, meaning])];
  return [
    '# Words and tables',
    '## Words',
    words.map(row).join('\n'),
    '## Tables that come in',
    'Every column is named after what it holds; a dimensioned one ends in its unit. Pressures are absolute. Where a column is not required, an empty or absent field means “not known”.',
    ...inputTables.map(section),
    '## Tables that come out',
    ...outputTables.map(section),
  ].join('\n\n');
}

function section(of: Table): string {
  const head = ['column', 'unit', 'kind', 'required', 'choices or range', 'meaning'];
  const lines = [head, head.map(() => '---'), ...columnsOf(of).map(cells)].map(row);
  const key = of.key.map((name) => `\`${name}\``).join(', ');
  return [`### \`${of.name}\``, `One row per ${of.rowIs}. Told apart by ${key}.`, lines.join('\n')].join('\n\n');
}

function cells(column: Column): string[] {
  const { name, unit = '', kind, required, description } = column;
  return [`\`${name}\``, unit, kind, required ? 'yes' : '', allowed(column), description];
}

/** The words of a choice, or the range of a number, or nothing. */
function allowed({ words, min, max, over }: Column): string {
  if (words !== undefined) return words.join(' · ');
  if (min === undefined || max === undefined) return '';
  return `${plain(min)} … ${plain(max)}${over ? ', or the word `over`' : ''}`;
}

/** A number with its thousands apart, so that 30 000 000 can be read. */
function plain(value: number): string {
  return new Intl.NumberFormat('en', { maximumFractionDigits: 9 }).format(value).replaceAll(',', ' ').replace('-', '−');
}

function row(texts: readonly string[]): string {
  return `| ${texts.map((text) => text.replaceAll('|', '\\|')).join(' | ')} |`;
}
