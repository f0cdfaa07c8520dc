import { leastTelling, type Texture } from './texture.ts';

/**
 * A texture in two bits a reading: whether it tells, and to which side. Reading `row` is bit `row % 32` of word `row >> 5`.
 */
export interface CurveBits {
  readonly rows: number;
  readonly telling: Uint32Array;
  readonly above: Uint32Array;
}

export function curveBits({ deviations }: Texture): CurveBits {
  const rows = deviations.length;
  const telling = new Uint32Array((rows + 31) >> 5);
  const above = new Uint32Array((rows + 31) >> 5);
  for (let row = 0; row < rows; row += 1) {
    const deviation = deviations[row];
    if (!(Math.abs(deviation) > leastTelling)) continue;
    telling[row >> 5] |= 1 << (row & 31);
    if (deviation > 0) above[row >> 5] |= 1 << (row & 31);
  }
  return { rows, telling, above };
}

/** As bytes: first the rows, then the words that tell, then the sides, each as 32-bit little-endian words. */
export function packedBits({ rows, telling, above }: CurveBits): Uint8Array {
  const words = new Uint32Array(1 + telling.length + above.length);
  words[0] = rows;
  words.set(telling, 1);
  words.set(above, 1 + telling.length);
  return new Uint8Array(words.buffer);
}

/** @param bytes from `packedBits`, in memory of their own */
export function unpackedBits(bytes: Uint8Array<ArrayBuffer>): CurveBits {
  const words = new Uint32Array(bytes.buffer);
  const [rows] = words;
  const size = (rows + 31) >> 5;
  return { rows, telling: words.subarray(1, 1 + size), above: words.subarray(1 + size, 1 + 2 * size) };
}

/** Words of 32 rows on either side that are compared around a row. */
const nearWords = 3;

/** How two textures agree where both tell, one moved against the other. */
export interface BitAgreement {
  /** Rows where both tell. */
  readonly rows: number;
  /** Agreeing less disagreeing rows, in standard deviations of what chance does: about normal between two honest curves. */
  readonly sigma: number;
}

/**
 * @param shift row of `two` less the row of `one` that it is held beside
 * @param near row of `one` around which alone they are compared; absent: all of both
 */
export function bitAgreement(one: CurveBits, two: CurveBits, shift: number, near?: number): BitAgreement {
  const offset = shift >> 5;
  const bits = shift & 31;
  const first = near === undefined ? 0 : (near >> 5) - nearWords;
  const end = near === undefined ? one.telling.length : Math.min(one.telling.length, (near >> 5) + nearWords + 1);
  let rows = 0;
  let apart = 0;
  for (let at = Math.max(0, first, -offset - 1); at < end; at += 1) {
    if (at + offset >= two.telling.length) break;
    const both = one.telling[at] & moved(two.telling, at + offset, bits);
    if (both === 0) continue;
    rows += ones(both);
    apart += ones(both & (one.above[at] ^ moved(two.above, at + offset, bits)));
  }
  return { rows, sigma: rows === 0 ? 0 : (rows - 2 * apart) / Math.sqrt(rows) };
}

/** 32 bits from bit `bits` of word `at` on. */
function moved(words: Uint32Array, at: number, bits: number): number {
  const low = at < 0 ? 0 : words[at];
  if (bits === 0) return low;
  const high = at + 1 < words.length ? words[at + 1] : 0;
  return (low >>> bits) | (high << (32 - bits));
}

/** How many bits of a 32-bit word are set. */
function ones(word: number): number {
  let count = word - ((word >>> 1) & 0x55555555);
  count = (count & 0x33333333) + ((count >>> 2) & 0x33333333);
  return Math.imul((count + (count >>> 4)) & 0x0f0f0f0f, 0x01010101) >>> 24;
}
