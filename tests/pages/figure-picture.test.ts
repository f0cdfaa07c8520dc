import { inflateSync } from 'node:zlib';
import { describe, expect, test } from 'vitest';
import type { Figure } from '../../src/pages/figure.ts';
import { figurePicture } from '../../src/pages/figure-picture.ts';
import { PageCharts } from '../../src/pages/page-charts.ts';
import { picturePng } from '../../src/pages/picture-png.ts';

const bars: Figure['chart'] = {
  $schema: 'https://vega.github.io/schema/vega-lite/v6.json',
  data: { name: 'counts' },
  width: 'container',
  height: 100,
  mark: { type: 'bar', color: 'var(--accent)' },
  encoding: { x: { field: 'crew', type: 'nominal' }, y: { field: 'jobs', type: 'quantitative' } },
};

const figure = (further: Partial<Figure> = {}): Figure => ({
  name: 'jobs-by-crew',
  title: 'How many jobs?',
  chart: bars,
  description: 'Jobs by crew.',
  heightPx: 120,
  ...further,
});

async function pictureOf(shown: Figure, rows: object[] = [{ crew: 'Elm & <Oak>', jobs: 3 }]): Promise<string> {
  const charts = new PageCharts();
  charts.addTable('counts', rows);
  await charts.figure(shown);
  return figurePicture(charts.figures[0], charts.rows, 'day-first');
}

describe('a figure as a picture', () => {
  test('says its subject, its title, how to read it, and what its marks mean; days as its reader writes them', async () => {
    const svg = await pictureOf(
      figure({
        subject: 'Crew Elm',
        note: 'jobs since 2 Mar 2026',
        noteOnPage: 'as the filters choose',
        noteAlone: 'all of them',
        figuresAt: 'The table below has them.',
        key: [{ mark: 'square', text: 'one job' }],
        legend: 'Bar: jobs.',
      }),
    );
    const texts = [...svg.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text]) => text);
    for (const said of ['Crew Elm: How many jobs?', 'jobs since 2 Mar 2026. all of them', 'one job', 'Bar: jobs.'])
      expect(texts).toContain(said);
    expect(svg).not.toMatch(/filters|table below|var\(--/);
    expect(svg).toContain('<g class="key"');
    expect(svg).toContain('fill="#1c5c9e"');
  });

  test('long titles and keys go over lines, and nothing that data say is taken for markup', async () => {
    const long = 'a question that goes on and on '.repeat(6).trim();
    const svg = await pictureOf(figure({ title: `${long} </title><script>`, key: [{ mark: 'disc', text: long }] }));
    expect(svg).not.toContain('<script>');
    expect(svg).toContain('Elm &amp; &lt;Oak&gt;');
    const titles = [...svg.matchAll(/font-weight="600"[^>]*>([^<]*)</g)].map(([, line = '']) => line);
    expect(titles.length).toBeGreaterThan(1);
    for (const line of titles) expect(line.length).toBeLessThan(80);
  });

  test('names of anything at all make a file that every reader of XML takes', async () => {
    const name = 'A\u0000\u0007\uffff\ufffe\ud800B';
    const svg = await pictureOf(figure({ subject: name, key: [{ mark: 'disc', text: name }] }), [
      { crew: name, jobs: 3 },
    ]);
    expect(svg.isWellFormed()).toBe(true);
    expect(svg).toContain('A\\u{0}\\u{7}\\u{ffff}\\u{fffe}');
    // In the chart, in the heading, and in the key.
    expect(svg.match(/A[^<]*B/g)?.length).toBeGreaterThanOrEqual(3);
    expect((await picturePng(svg)).length).toBeGreaterThan(1000);
    const long = await pictureOf(figure({ subject: 'x'.repeat(300) }));
    const lines = [...long.matchAll(/font-weight="600"[^>]*>([^<]*)</g)].map(([, line = '']) => line);
    expect(Math.max(...lines.map((line) => line.length))).toBeLessThan(80);
  });

  test('equal figures, equal bytes', async () => {
    expect(await pictureOf(figure())).toBe(await pictureOf(figure()));
    expect(await picturePng(await pictureOf(figure()))).toEqual(await picturePng(await pictureOf(figure())));
  });
});

const svgOf = (inner: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="60" height="30" viewBox="0 0 60 30"><rect width="60" height="30" fill="#fff"/>${inner}</svg>`;

/** How many dots of a PNG (8 bits, with alpha) are not white: its rows of filter, then dots, are taken apart. */
function inked(png: Uint8Array): number {
  const bytes = Buffer.from(png);
  const [width, height] = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)];
  const packed: Buffer[] = [];
  for (let at = 8; at < bytes.length; at += 12 + bytes.readUInt32BE(at))
    if (bytes.toString('latin1', at + 4, at + 8) === 'IDAT')
      packed.push(bytes.subarray(at + 8, at + 8 + bytes.readUInt32BE(at)));
  const raw = inflateSync(Buffer.concat(packed));
  const stride = 4 * width;
  const rows = Buffer.alloc(stride * height);
  const paeth = (a: number, b: number, c: number): number => {
    const [pa, pb, pc] = [Math.abs(b - c), Math.abs(a - c), Math.abs(a + b - 2 * c)];
    return pa <= pb && pa <= pc ? a : pb <= pc ? b : c;
  };
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < stride; x += 1) {
      const a = x < 4 ? 0 : (rows[y * stride + x - 4] ?? 0);
      const b = y === 0 ? 0 : (rows[(y - 1) * stride + x] ?? 0);
      const c = x < 4 || y === 0 ? 0 : (rows[(y - 1) * stride + x - 4] ?? 0);
      const add = [0, a, b, (a + b) >> 1, paeth(a, b, c)][raw[y * (stride + 1)] ?? 0] ?? 0;
      rows[y * stride + x] = (raw[y * (stride + 1) + 1 + x] ?? 0) + add;
    }
  let dots = 0;
  for (let at = 0; at < rows.length; at += 4) if ((rows[at] ?? 0) < 128) dots += 1;
  return dots;
}

describe('a picture as PNG', () => {
  test('is two dots a pixel, and has its text, whatever type its reader has', async () => {
    const png = await picturePng(
      svgOf('<text x="4" y="20" font-family="No Such Type, sans-serif" font-size="16">psig</text>'),
    );
    const bytes = Buffer.from(png);
    expect([bytes.readUInt32BE(16), bytes.readUInt32BE(20)]).toEqual([120, 60]);
    expect(inked(await picturePng(svgOf('')))).toBe(0);
    // Four letters of 32 dots in height: some hundreds of dots.
    expect(inked(png)).toBeGreaterThan(200);
    expect(inked(png)).toBeLessThan(2000);
  });

  test('is drawn though a see-through shape lies in a part of which most lies far outside', async () => {
    const far = '<path d="M0,0L1,1L2,-40000L4,-40000" stroke="#000" fill="none"/>';
    const band = '<path d="M10,0h10v30h-10Z" fill="#000" stroke="#000" stroke-dasharray="2,2" opacity="0.9"/>';
    const clipped = svgOf(
      `<defs><clipPath id="c"><rect width="60" height="30"/></clipPath></defs><g clip-path="url(#c)"><g>${band}${far}</g></g>`,
    );
    // The band is 10 wide and 30 high, in dots 20 by 60.
    expect(inked(await picturePng(clipped))).toBeGreaterThan(1000);
  });
});
