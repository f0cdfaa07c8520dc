import { amountParts, isNumberText } from './cell-shape.ts';

/** How a file writes numbers. */
export interface NumberStyle {
  readonly decimal: '.' | ',';
  readonly thousands?: '.' | ',' | ' ' | "'";
  /** A number that may be read in two ways, where nothing in the file settles which. */
  readonly doubtful?: string;
}

const grouped = /^[+-]?[1-9]\d{0,2}(?:([., '\u00a0])\d{3})(?:\1\d{3})*(?:([.,])\d+)?$/;

/**
 * How numbers are written, by all those of a file: a sign before other than three digits is the decimals', one that comes
 * twice in a number parts thousands.
 *
 * @param texts cells; what is no number does not count
 */
export function numberStyle(texts: Iterable<string>): NumberStyle {
  const decimals = { '.': 0, ',': 0 };
  const thousands = new Map<string, number>();
  const open = { '.': [] as string[], ',': [] as string[] };
  for (const text of texts) {
    const number = amountParts(text)?.number ?? text;
    if (!isNumberText(number)) continue;
    judge(number, decimals, thousands, open);
  }
  const decimal = decimals[','] > decimals['.'] ? ',' : '.';
  const told = decimals[','] > 0 || decimals['.'] > 0;
  const other = decimal === ',' ? '.' : ',';
  // "1,234": with decimals written otherwise elsewhere it parts thousands; with none anywhere it may be either.
  const undecided = [...open[','], ...open['.']];
  if (open[other].length > 0 && told) thousands.set(other, open[other].length);
  const [mark] = [...thousands].toSorted((a, b) => b[1] - a[1]).find(([each]) => each !== decimal) ?? [];
  if (!told && undecided.length > 0 && mark === undefined) {
    // Without any sure decimal, what has three digits behind a comma more often parts thousands; behind a point, decimals.
    const comma = open[','].length > 0;
    return { decimal: '.', ...(comma ? { thousands: ',' as const } : {}), doubtful: undecided[0] };
  }
  return {
    decimal: !told && mark === '.' ? ',' : decimal,
    ...(mark === undefined ? {} : { thousands: mark as NonNullable<NumberStyle['thousands']> }),
  };
}

function judge(
  number: string,
  decimals: { '.': number; ',': number },
  thousands: Map<string, number>,
  open: { '.': string[]; ',': string[] },
): void {
  const group = grouped.exec(number);
  const marks = (number.match(/[.,]/g) ?? []) as ('.' | ',')[];
  const add = (mark: string) => thousands.set(mark, (thousands.get(mark) ?? 0) + 1);
  if (group === null) {
    const [mark] = marks;
    if (marks.length === 1) decimals[mark] += 1;
    return;
  }
  const [, mark, decimal] = group;
  const plainMark = mark === '\u00a0' ? ' ' : mark;
  if (decimal !== undefined) {
    decimals[decimal as '.' | ','] += 1;
    if (decimal !== mark) add(plainMark);
  } else if (plainMark === ' ' || plainMark === "'" || marks.length > 1) add(plainMark);
  else open[mark as '.' | ','].push(number);
}

/** The value of a number in a style, or undefined where the text is none. */
export function numberIn(text: string, { decimal, thousands }: NumberStyle): number | undefined {
  let plain = text.trim();
  if (thousands !== undefined && grouped.test(plain))
    plain = plain.replaceAll(thousands === ' ' ? /[ \u00a0]/g : thousands, '');
  if (decimal === ',') {
    if (plain.includes('.')) return undefined;
    plain = plain.replace(',', '.');
  }
  return /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/.test(plain) ? Number(plain) : undefined;
}
