import { median } from '../../numerics/median.ts';
import type { PressureCurve } from './pressure-curve.ts';
import { hasFace, leastLikeness } from './face.ts';
import { counted, type Texture, textureOf } from './texture.ts';

/** One curve found in another. Times and levels are those of `one` and of `two` as they were given. */
export interface SameCurve {
  /** Row of `two` less the row of `one`. */
  readonly shiftRows: number;
  /** Readings of the stretch in which the two go together. */
  readonly rows: number;
  readonly fromS: number;
  readonly toS: number;
  /** Time of `two` less time of `one` at the same reading [s]. */
  readonly shiftS: number;
  /** Share of the shorter curve's readings that the stretch holds. */
  readonly share: number;
  /** Pressure of `two` over pressure of `one`. */
  readonly scaleRatio: number;
  /** Standard deviation of that ratio from reading to reading, from its middle half [ratio]; 0 where it never changes. */
  readonly scatterRatio: number;
  /** How far the agreement of the textures exceeds chance, in its standard deviations. */
  readonly sigma: number;
}

// Common practice, no source; set on simulated fleets (tests/copies).
/** Fewer readings that agree tell too little. */
const fewestRows = 48;
/** Rows that are looked at together for where the agreement ends, and what must be common to them (correlation). */
const blockRows = 32;
const leastInBlock = 0.3;
/** A ratio of two pressures that are multiples of each other strays so far at most from block to block, and by half a step of the gauge. */
const mostStray = 0.03;
/** Blocks in which it may not, of all: something else was written over the copy there. */
const strayingShare = 0.2;
/** The place that fingerprints tell is so near [rows]. */
const nearRows = 8;

/**
 * Whether two curves are one: their textures go together, and one pressure is a multiple of the other. Of two without a face
 * nothing is said.
 *
 * @param shiftRows about the row of `two` less the row of `one`
 */
export function sameCurve(one: PressureCurve, two: PressureCurve, shiftRows: number): SameCurve | undefined {
  const [a, b] = [textureOf(one), textureOf(two)];
  if (!hasFace(a) && !hasFace(b)) return undefined;
  let best = { shift: shiftRows, sigma: 0 };
  for (let shift = shiftRows - nearRows; shift <= shiftRows + nearRows; shift += 1) {
    const { sigma } = likeness(a, b, shift, { from: 0, end: a.deviations.length });
    if (sigma > best.sigma) best = { shift, sigma };
  }
  if (best.sigma < leastLikeness) return undefined;
  const stretch = agreeing(a, b, best.shift);
  if (stretch === undefined) return undefined;
  return measured(one, two, best, stretch);
}

interface Rows {
  readonly from: number;
  readonly end: number;
}

/**
 * How two textures go together in some rows of the first.
 *
 * @returns their correlation, and the sum of their products over the root of the sum of the products' squares: about normal between
 * two honest curves, however few large deviations there are among many small ones
 */
function likeness(a: Texture, b: Texture, shift: number, { from, end }: Rows) {
  let [rows, product, squares, ones, twos] = [0, 0, 0, 0, 0];
  const last = Math.min(end, b.deviations.length - shift);
  for (let row = Math.max(from, -shift); row < last; row += 1) {
    const one = counted(a.deviations[row]);
    const two = counted(b.deviations[row + shift]);
    if (Number.isNaN(one) || Number.isNaN(two)) continue;
    rows += 1;
    product += one * two;
    squares += (one * two) ** 2;
    ones += one * one;
    twos += two * two;
  }
  if (rows < blockRows / 2 || squares === 0) return { correlation: 0, sigma: 0 };
  return { correlation: product / Math.sqrt(ones * twos), sigma: product / Math.sqrt(squares) };
}

/** From the first block of rows that goes together to the last one. */
function agreeing(a: Texture, b: Texture, shift: number): Rows | undefined {
  const start = Math.max(0, -shift);
  const stop = Math.min(a.deviations.length, b.deviations.length - shift);
  let from = -1;
  let end = -1;
  let rows = 0;
  for (let block = start; block < stop; block += blockRows) {
    const blockEnd = stop - block < 2 * blockRows ? stop : block + blockRows;
    if (likeness(a, b, shift, { from: block, end: blockEnd }).correlation >= leastInBlock) {
      if (from < 0) from = block;
      end = blockEnd;
      rows += blockEnd - block;
    }
    if (blockEnd === stop) break;
  }
  return rows < fewestRows ? undefined : { from, end };
}

function measured(
  one: PressureCurve,
  two: PressureCurve,
  { shift, sigma }: { shift: number; sigma: number },
  { from, end }: Rows,
): SameCurve | undefined {
  const ratios: number[] = [];
  for (let row = from; row < end; row += 1) {
    const ratio = two.levels[row + shift] - one.levels[row];
    if (!Number.isNaN(ratio)) ratios.push(ratio);
  }
  if (ratios.length < fewestRows) return undefined;
  const level = median(Float64Array.from(ratios));
  if (!isConstant(one, two, { shift, from, end }, level)) return undefined;
  const away = median(Float64Array.from(ratios, (ratio) => Math.abs(ratio - level)));
  return {
    shiftRows: shift,
    rows: ratios.length,
    fromS: one.elapsedS[from],
    toS: one.elapsedS[end - 1],
    shiftS: two.elapsedS[from + shift] - one.elapsedS[from],
    share: ratios.length / Math.min(finite(one), finite(two)),
    scaleRatio: Math.exp(level),
    scatterRatio: away / 0.6745,
    sigma,
  };
}

/** Whether the level of `two` over that of `one` is the same from block to block. */
function isConstant(
  one: PressureCurve,
  two: PressureCurve,
  { shift, from, end }: Rows & { readonly shift: number },
  level: number,
): boolean {
  let [blocks, straying] = [0, 0];
  for (let block = from; block + blockRows <= end; block += blockRows) {
    const [a, b] = [
      one.levels.subarray(block, block + blockRows),
      two.levels.subarray(block + shift, block + shift + blockRows),
    ];
    const strays = meanLevel(b) - meanLevel(a) - level;
    if (Number.isNaN(strays)) continue;
    blocks += 1;
    if (Math.abs(strays) > mostStray + Math.max(leastChange(a), leastChange(b)) / 2) straying += 1;
  }
  return straying <= strayingShare * blocks;
}

function meanLevel(levels: Float64Array): number {
  return levels.reduce((sum, level) => sum + level, 0) / levels.length;
}

/** The smallest change between neighbours, which is the step of a gauge; 0 where nothing changes. */
function leastChange(levels: Float64Array): number {
  let least = Number.POSITIVE_INFINITY;
  for (let row = 1; row < levels.length; row += 1) {
    const change = Math.abs(levels[row] - levels[row - 1]);
    if (change > 1e-9 && change < least) least = change;
  }
  return least === Number.POSITIVE_INFINITY ? 0 : least;
}

function finite({ levels }: PressureCurve): number {
  return levels.reduce((count, level) => (Number.isNaN(level) ? count : count + 1), 0);
}
