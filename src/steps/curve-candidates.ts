import { ColumnStage } from '../store/column-stage.ts';
import { type CurveRange, keptBits, keptLandmarks } from '../store/curve-prints.ts';
import { query } from '../store/sql.ts';
import type { Store } from '../store/store.ts';
import { bitAgreement, type CurveBits } from '../traces/curve/curve-bits.ts';
import { cellsAround, type KeptLandmark, LandmarkIndex, landmarkKindOf } from '../traces/curve/landmark-index.ts';

/** Two curves whose prints go together. */
export interface CurveCandidate {
  /** The curve that was there first, and the later one. */
  readonly one: number;
  readonly two: number;
  /** About the row of `two` less the row of `one`. */
  readonly shiftRows: number;
  /** How far the agreement of their bits exceeds chance. */
  readonly sigma: number;
}

/** Told how many of the later curves have been held beside all others, of how many. */
export type OnCurves = (curves: number, of: number) => void;

// Common practice, no source; set on simulated fleets (tests/copies).
/** What the bits around a landmark, and all bits, must agree by to look further. */
const leastNear = 2;
const leastSigma = 6;
/** A bend is placed so exactly [rows]; the first reading within the range to the row. */
const bendRows = 2;
const edgeRows = 0;
/** A curve is held beside so many others at most, the likeliest. */
const mostCandidates = 10;
/** Curves that are held in memory at once, twice; memory does not grow with the fleet. */
const blockCurves = 40_000;

/**
 * The pairs of curves that look like one, the later one among `latest`. From words that two curves share, and from landmarks
 * that look alike, to what their bits say; nothing is read of the readings themselves. Some at a time.
 */
export async function* curveCandidates(
  store: Store,
  latest: CurveRange,
  onProgress: OnCurves = () => undefined,
): AsyncGenerator<CurveCandidate[]> {
  for (let from = latest.from; from < latest.end; from += blockCurves) {
    const block = { from, end: Math.min(latest.end, from + blockCurves) };
    const done = from - latest.from;
    yield await blockCandidates(store, block, (curves) => onProgress(done + curves, latest.end - latest.from));
  }
}

async function blockCandidates(
  store: Store,
  latest: CurveRange,
  onCurves: (curves: number) => void,
): Promise<CurveCandidate[]> {
  await store.run(query('word-candidates'), [BigInt(latest.from), BigInt(latest.end)]);
  const landmarks = await keptLandmarks(store, latest);
  await fillWantedCells(store, landmarks);
  const bits = await bitsOfRange(store, latest);
  const found = new LikeliestCandidates();
  for (let from = 0; from < latest.end; from += blockCurves) {
    const earlier = { from, end: Math.min(latest.end, from + blockCurves) };
    await compareBlocks(store, earlier, { landmarks, bits }, found);
    onCurves(Math.round(((latest.end - latest.from) * earlier.end) / latest.end));
  }
  return found.all();
}

/** A block of curves in memory. */
interface CurveBlock {
  readonly landmarks: readonly KeptLandmark[];
  readonly bits: ReadonlyMap<number, CurveBits>;
}

async function compareBlocks(store: Store, earlier: CurveRange, latest: CurveBlock, found: LikeliestCandidates) {
  const landmarks = await keptLandmarks(store, earlier, 'wanted_cells');
  const words = await store.rows<{ one: number; two: number; shift: number }>(
    `SELECT one, two, shift FROM temp.word_candidates WHERE one >= ${earlier.from} AND one < ${earlier.end} ORDER BY ALL`,
  );
  const needed = new Set([...landmarks.map(({ curve }) => curve), ...words.map(({ one }) => one)]);
  await fillNumbers(store, 'needed_curves', 'curve_id', needed);
  const bits = await keptBits(store, 'needed_curves');
  for (const { one, two, shift } of words) {
    const [a, b] = [bits.get(one), latest.bits.get(two)];
    if (a !== undefined && b !== undefined)
      found.offer({ one, two, shiftRows: shift, sigma: bitAgreement(a, b, shift).sigma });
  }
  const index = new LandmarkIndex(landmarks);
  for (const landmark of latest.landmarks) {
    const b = latest.bits.get(landmark.curve);
    if (b === undefined) continue;
    const within = landmarkKindOf(landmark.cell) === 'edge' ? edgeRows : bendRows;
    index.like(landmark, (one, row) => {
      const a = one < landmark.curve ? bits.get(one) : undefined;
      if (a === undefined) return;
      const shiftRows = nearestShift(a, b, row, landmark.row - row, within);
      if (shiftRows === undefined) return;
      found.offer({ one, two: landmark.curve, shiftRows, sigma: bitAgreement(a, b, shiftRows).sigma });
    });
  }
}

/** Where near a shift the bits around a row agree best; undefined where they do so nowhere. */
function nearestShift(a: CurveBits, b: CurveBits, row: number, about: number, within: number): number | undefined {
  let best: number | undefined;
  let most = leastNear;
  for (let shift = about - within; shift <= about + within; shift += 1) {
    const { sigma } = bitAgreement(a, b, shift, row);
    if (sigma < most) continue;
    most = sigma;
    best = shift;
  }
  return best;
}

/** The likeliest candidates of each later curve, one for every earlier curve. */
class LikeliestCandidates {
  readonly #byCurve = new Map<number, CurveCandidate[]>();

  offer(candidate: CurveCandidate): void {
    if (candidate.sigma < leastSigma) return;
    const others = (this.#byCurve.get(candidate.two) ?? []).filter(({ one }) => one !== candidate.one);
    const same = this.#byCurve.get(candidate.two)?.find(({ one }) => one === candidate.one);
    const better = same !== undefined && same.sigma >= candidate.sigma ? same : candidate;
    others.push(better);
    others.sort((a, b) => b.sigma - a.sigma || a.one - b.one);
    this.#byCurve.set(candidate.two, others.slice(0, mostCandidates));
  }

  all(): CurveCandidate[] {
    return [...this.#byCurve.values()].flat();
  }
}

async function bitsOfRange(store: Store, { from, end }: CurveRange): Promise<Map<number, CurveBits>> {
  await store.run(
    `CREATE OR REPLACE TEMP TABLE needed_curves AS SELECT curve_id FROM curves WHERE curve_id >= ${from} AND curve_id < ${end}`,
  );
  return keptBits(store, 'needed_curves');
}

/** The cells in which landmarks like these may lie: many for each. */
async function fillWantedCells(store: Store, landmarks: readonly KeptLandmark[]): Promise<void> {
  const stage = await ColumnStage.begin(store.connection, 'cells_around', [
    { name: 'cell', kind: 'number', sqlType: 'BIGINT' },
  ]);
  for (const landmark of landmarks)
    for (const cell of cellsAround(landmark.cell, landmark.around)) stage.append({ cell });
  await store.run(`CREATE OR REPLACE TEMP TABLE wanted_cells AS SELECT DISTINCT * FROM (${stage.end()})`);
  await store.run('DROP TABLE temp.cells_around');
}

async function fillNumbers(store: Store, name: string, column: string, numbers: ReadonlySet<number>): Promise<void> {
  await store.fillRows(
    name,
    { [column]: 'BIGINT' },
    Array.from(numbers, (number) => [number]),
  );
}
