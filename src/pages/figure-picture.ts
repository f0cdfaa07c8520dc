import { CHART_FONT } from '../charts/chart-config.ts';
import { inLightColours, lightColours } from '../charts/chart-colours.ts';
import { drawnChart } from '../charts/drawn-chart.ts';
import { brokenLines } from '../units/broken-lines.ts';
import { type KeyMark, keyMark, keyMarkStyles } from './chart-key.ts';
import { type DateStyle, inDateStyle } from './date-style.ts';
import type { Figure } from './figure.ts';
import { Html, html } from './html.ts';
import type { ChartRow, DrawableFigure } from './page-charts.ts';

const marginPx = 20;
const chartPx = 720;
const widthPx = chartPx + 2 * marginPx;
/** Widest a character of usual text is, on average, by the size of the type. */
const characterRatio = 0.62;

/** Sizes of type and heights of lines [px]. */
const type = { title: { sizePx: 17, linePx: 23 }, note: { sizePx: 13, linePx: 18 } } as const;
/** The key's marks, as wide and as far from their text as on a page [px]. */
const markPx = 32;

/**
 * What a figure is called where no page stands around it.
 *
 * @example figureHeading({ subject: 'Job W-103', title: 'How did the vacuum go?' }) // 'Job W-103: How did the vacuum go?'
 */
export function figureHeading({ subject = '', title }: Pick<Figure, 'subject' | 'title'>): string {
  return subject === '' ? title : `${subject}: ${title}`;
}

/** What is said below its heading there. */
export function figureNote({ note, noteAlone }: Pick<Figure, 'note' | 'noteAlone'>): string | undefined {
  const notes = [note, noteAlone].filter((text) => text !== undefined);
  return notes.length === 0 ? undefined : notes.join('. ');
}

/** What no XML file may hold; labels within a chart come as the data have them. */
// oxlint-disable-next-line no-control-regex -- just these
const noXml = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g;

/** One line of text, and where it stands. */
interface Line {
  readonly text: string;
  readonly kind: keyof typeof type;
  readonly mark?: KeyMark;
  readonly isIndented?: boolean;
}

/**
 * A figure as an SVG file that says all by itself, on white paper: its title, the chart, and what its marks mean.
 *
 * @param tables rows that charts of its page read by name
 * @returns the file; equal figures, equal bytes
 */
export async function figurePicture(
  figure: DrawableFigure,
  tables: ReadonlyMap<string, readonly ChartRow[]>,
  dates: DateStyle,
): Promise<string> {
  const { description, key = [], legend } = figure;
  const note = figureNote(figure);
  const { svg, heightPx } = await drawnChart(figure.spec, { widthPx: chartPx, tables });
  const dated = (text: string): string => inDateStyle(text, dates);
  const heading = dated(figureHeading(figure));
  const above = [...lines(heading, 'title'), ...(note === undefined ? [] : lines(dated(note), 'note'))];
  const below = [
    ...key.flatMap(({ mark, text }) => keyLines(mark, dated(text))),
    ...(legend === undefined ? [] : lines(dated(legend), 'note')),
  ];
  const chartTopPx = marginPx + heightOf(above) + 8;
  const belowTopPx = chartTopPx + heightPx + (below.length === 0 ? 0 : 10);
  const wholePx = Math.ceil(belowTopPx + heightOf(below) + marginPx);
  const picture = html`<svg xmlns="http://www.w3.org/2000/svg" width="${widthPx}" height="${wholePx}" viewBox="0 0 ${widthPx} ${wholePx}" role="img" font-family="${CHART_FONT}">
<title>${heading}</title>
<desc>${dated(description)}</desc>
<style>${new Html(keyMarkStyles)}</style>
<rect width="${widthPx}" height="${wholePx}" fill="${lightColours.paper}"/>
${texts(above, marginPx)}
<g transform="translate(${marginPx} ${chartTopPx})">${new Html(svg)}</g>
${texts(below, belowTopPx)}
</svg>
`;
  return inLightColours(picture.source).toWellFormed().replaceAll(noXml, '\ufffd');
}

function lines(text: string, kind: Line['kind'], indentPx = 0): Line[] {
  const most = Math.floor((chartPx - indentPx) / (characterRatio * type[kind].sizePx));
  // A word that is longer than a line is broken where it ends.
  const words = text.replaceAll(new RegExp(`\\S{${most}}`, 'gu'), '$& ');
  return brokenLines(words, most).map((line) => ({ text: line, kind }));
}

function keyLines(mark: KeyMark, text: string): Line[] {
  if (mark === 'none') return lines(text, 'note');
  return lines(text, 'note', markPx).map((line, at) => ({ ...line, isIndented: true, ...(at === 0 ? { mark } : {}) }));
}

const heightOf = (all: readonly Line[]): number => all.reduce((sum, { kind }) => sum + type[kind].linePx, 0);

function texts(all: readonly Line[], topPx: number): Html[] {
  return all.map(({ text, kind, mark, isIndented = false }, at) => {
    const { sizePx, linePx } = type[kind];
    const basePx = topPx + heightOf(all.slice(0, at)) + Math.round(0.72 * linePx);
    const look =
      kind === 'title' ? html` font-weight="600" fill="${lightColours.ink}"` : html` fill="${lightColours.muted}"`;
    return html`${mark !== undefined && html`<g class="key" transform="translate(${marginPx} ${basePx - 11})">${keyMark(mark)}</g>`}<text x="${marginPx + (isIndented ? markPx : 0)}" y="${basePx}" font-size="${sizePx}"${look}>${text}</text>
`;
  });
}
