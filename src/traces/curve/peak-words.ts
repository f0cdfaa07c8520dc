import type { Texture } from './texture.ts';

/** What the order of some peaks of a texture says, and where it begins. */
export interface PeakWord {
  /** The distances between the peaks in rows and their sides, packed into 49 bits. */
  readonly word: number;
  /** Row of the first peak. */
  readonly row: number;
}

// Common practice, no source; set on simulated fleets (tests/copies).
/** A peak is the largest of so many rows on either side, and so many times what is usual. */
const aroundRows = 3;
const leastPeak = 1.5;
/** Peaks in a word; more are rarer by chance, fewer outlast more trimming. */
const peaksInWord = 7;
/** A distance of so many rows and more is none of a word: there was a hole. */
const mostApartRows = 128;
/** Distances that differ by so few rows all along are the beat of a gauge's steps, which other curves have as well. */
const leastSpreadRows = 4;
/** Of so many words in a row the least by `mixed` is kept: any two curves that share so many share a kept one. */
const window = 4;

/**
 * The words of a texture, as a document’s fingerprints are taken: from the peaks' distances and sides, the same wherever the
 * curve is cut, later or at another level.
 *
 * Source: `winnowing-2003`.
 */
export function peakWords({ deviations }: Texture): PeakWord[] {
  const words = allWords(deviations, peaksOf(deviations));
  const mixes = words.map(({ word }) => mixed(word));
  const kept: PeakWord[] = [];
  let last = -1;
  for (let start = 0; start < Math.max(1, words.length - window + 1); start += 1) {
    let least = -1;
    const end = Math.min(words.length, start + window);
    for (let at = start; at < end; at += 1) if (least < 0 || mixes[at] <= mixes[least]) least = at;
    if (least > last) {
      kept.push(words[least]);
      last = least;
    }
  }
  return kept;
}

function peaksOf(deviations: Float32Array): number[] {
  const peaks: number[] = [];
  for (let row = 0; row < deviations.length; row += 1) {
    const size = Math.abs(deviations[row]);
    if (!(size >= leastPeak)) continue;
    // The first of equals counts; a neighbour that is not there, or not told, is no larger one.
    let isLargest = true;
    for (let apart = 1; apart <= aroundRows && isLargest; apart += 1)
      if (Math.abs(deviations[row - apart]) >= size || Math.abs(deviations[row + apart]) > size) isLargest = false;
    if (isLargest) peaks.push(row);
  }
  return peaks;
}

function allWords(deviations: Float32Array, peaks: readonly number[]): PeakWord[] {
  const words: PeakWord[] = [];
  for (let first = 0; first + peaksInWord <= peaks.length; first += 1) {
    let [nearest, farthest] = [mostApartRows, 0];
    let word = 0;
    for (let at = first; at < first + peaksInWord; at += 1) {
      word = word * 2 + (deviations[peaks[at]] > 0 ? 1 : 0);
      if (at === first) continue;
      const apart = peaks[at] - peaks[at - 1];
      nearest = Math.min(nearest, apart);
      farthest = Math.max(farthest, apart);
      word = word * mostApartRows + Math.min(apart, mostApartRows - 1);
    }
    if (farthest < mostApartRows && farthest - nearest >= leastSpreadRows) words.push({ word, row: peaks[first] });
  }
  return words;
}

/** A number as good as drawn, the same for the same word. */
function mixed(word: number): number {
  let bits = Math.imul((word >>> 0) ^ Math.imul(Math.floor(word / 2 ** 32), 0x9e3779b1), 0x85ebca6b);
  bits = Math.imul(bits ^ (bits >>> 15), 0x21f0aaad);
  return (bits ^ (bits >>> 15)) >>> 0;
}
