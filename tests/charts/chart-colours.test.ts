import { describe, expect, test } from 'vitest';
import { type ChartColours, darkColours, lightColours, pageColours } from '../../src/charts/chart-colours.ts';

type Triple = [number, number, number];

/** Linear red, green, blue of #rrggbb (IEC 61966-2-1, from memory). */
function linear(hex: string): Triple {
  return [1, 3, 5].map((start) => {
    const value = Number.parseInt(hex.slice(start, start + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  }) as Triple;
}

/** Contrast ratio as WCAG 2 defines it (from memory). */
function contrast(first: string, second: string): number {
  const [dark = 0, light = 0] = [first, second]
    .map(linear)
    .map(([r, g, b]) => 0.2126 * r + 0.7152 * g + 0.0722 * b)
    .toSorted((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

/** Machado, Oliveira, Fernandes 2009, severity 1 (from memory), on linear light; rows after each other. */
const eyes: Record<string, number[]> = {
  'any eyes': [1, 0, 0, 0, 1, 0, 0, 0, 1],
  'red-blind': [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  'green-blind': [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  'blue-blind': [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
};

/** CIE 1976 L*a*b* (D65) of a colour as somebody sees it. */
function seen(hex: string, matrix: readonly number[]): Triple {
  const light = linear(hex);
  const [r, g, b] = [0, 3, 6].map((row) =>
    Math.max(
      0,
      light.reduce((sum, value, column) => sum + value * (matrix[row + column] ?? 0), 0),
    ),
  ) as Triple;
  const [x, y, z] = [
    (0.4124 * r + 0.3576 * g + 0.1805 * b) / 0.95047,
    0.2126 * r + 0.7152 * g + 0.0722 * b,
    (0.0193 * r + 0.1192 * g + 0.9505 * b) / 1.08883,
  ].map((value) => (value > 0.008856 ? Math.cbrt(value) : 7.787 * value + 16 / 116)) as Triple;
  return [116 * y - 16, 500 * (x - y), 200 * (y - z)];
}

const themes: [string, ChartColours][] = [
  ['light', lightColours],
  ['dark', darkColours],
];

describe.each(themes)('%s colours', (_, colours) => {
  test.each(['ink', 'muted', 'accent', 'suspect', 'fail', 'pass'] as const)('%s can be read as text', (name) => {
    expect(contrast(colours[name], colours.paper)).toBeGreaterThanOrEqual(4.5);
  });

  test.each(Object.entries(eyes))('outcomes are apart for %s', (_eyes, matrix) => {
    const pairs = [
      [colours.fail, colours.suspect],
      [colours.fail, colours.pass],
      [colours.suspect, colours.pass],
    ] as const;
    for (const [first, second] of pairs) {
      const [one, other] = [seen(first, matrix), seen(second, matrix)];
      expect(Math.hypot(...one.map((value, index) => value - (other[index] ?? 0)))).toBeGreaterThan(20);
    }
  });
});

test('contrast runs from 1 to 21', () => {
  expect(contrast('#ffffff', '#ffffff')).toBe(1);
  expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 10);
});

test('a page draws by variables of the same names', () => {
  expect(pageColours.accent).toBe('var(--accent)');
  expect(Object.keys(pageColours)).toEqual(Object.keys(darkColours));
});
