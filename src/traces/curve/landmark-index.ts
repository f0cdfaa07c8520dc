import { landmarkKinds, landmarkLagsS, type LandmarkKind } from './landmarks.ts';

/** A landmark as it is kept: what the curve does around it in whole thousandths, `unknownLevel` where it does not reach. */
export interface KeptLandmark {
  readonly curve: number;
  readonly row: number;
  /** Kind, and the levels of `cellLags` in steps of twice the tolerance: two landmarks within it lie in the same cell or in neighbouring ones. */
  readonly cell: number;
  readonly around: Int16Array;
}

export const unknownLevel = -32768;

// Common practice, no source; set on simulated fleets (tests/copies).
/** Levels around the landmarks of one curve differ so little [thousandths], noise and steps of a gauge included. */
const tolerance: Readonly<Record<LandmarkKind, number>> = { edge: 25, upward: 18, downward: 15 };
/** The levels that name a cell: those that a curve reaches soonest; of upward bends, whose nearest are all alike, some farther away. */
const after = landmarkLagsS.length;
const cellLags: Readonly<Record<LandmarkKind, readonly number[]>> = {
  edge: [after, after + 1, after + 2, after + 3],
  upward: [after - 3, after - 2, after + 1, after + 3],
  downward: [after - 2, after - 1, after, after + 1],
};
/** Fewer common levels tell too little. */
const fewestCommon = 4;
/** Steps of a level’s place in the number of a cell. */
const placeSteps = 2048;

/** Levels as they are kept. */
export function keptLevels(around: Float32Array): Int16Array {
  return Int16Array.from(around, (level) =>
    Number.isNaN(level) ? unknownLevel : Math.max(-32767, Math.min(32767, Math.round(level * 1000))),
  );
}

/** The cell of a landmark; undefined where the curve does not reach far enough around it. */
export function cellOf(kind: LandmarkKind, around: Int16Array): number | undefined {
  return cellsWithin(kind, around, 0)[0];
}

/** The cells in which landmarks like one may lie. */
export function cellsAround(cell: number, around: Int16Array): number[] {
  const kind = landmarkKindOf(cell);
  return cellsWithin(kind, around, tolerance[kind]);
}

/** The kind of the landmarks of a cell. */
export function landmarkKindOf(cell: number): LandmarkKind {
  return landmarkKinds[cell % landmarkKinds.length];
}

function cellsWithin(kind: LandmarkKind, around: Int16Array, within: number): number[] {
  let cells = [0];
  for (const lag of cellLags[kind]) {
    const level = around[lag];
    if (level === unknownLevel) return [];
    const low = placeOf(kind, level - within);
    const high = placeOf(kind, level + within);
    const places = low === high ? [low] : [low, high];
    cells = cells.flatMap((cell) => places.map((place) => cell * placeSteps + place));
  }
  return cells.map((cell) => cell * landmarkKinds.length + landmarkKinds.indexOf(kind));
}

function placeOf(kind: LandmarkKind, level: number): number {
  return Math.max(0, Math.min(placeSteps - 1, Math.floor(level / (2 * tolerance[kind])) + placeSteps / 2));
}

/** Landmarks by cell, in typed arrays: as many as a block of curves has. */
export class LandmarkIndex {
  /** Where the landmarks of a cell begin; they follow each other. */
  readonly #firsts = new Map<number, number>();
  readonly #cells: Float64Array;
  readonly #curves: Float64Array;
  readonly #rows: Int32Array;
  readonly #around: Int16Array;

  /** @param landmarks in the order of their cells */
  constructor(landmarks: readonly KeptLandmark[]) {
    const size = 2 * landmarkLagsS.length;
    this.#cells = new Float64Array(landmarks.length);
    this.#curves = new Float64Array(landmarks.length);
    this.#rows = new Int32Array(landmarks.length);
    this.#around = new Int16Array(landmarks.length * size);
    for (const [at, { curve, row, cell, around }] of landmarks.entries()) {
      if (at > 0 && cell < this.#cells[at - 1]) throw new TypeError('landmarks are not in the order of their cells');
      if (at === 0 || cell !== this.#cells[at - 1]) this.#firsts.set(cell, at);
      this.#cells[at] = cell;
      this.#curves[at] = curve;
      this.#rows[at] = row;
      this.#around.set(around, at * size);
    }
  }

  /** Calls back with curve and row of every landmark like one. */
  like({ cell, around }: KeptLandmark, onLike: (curve: number, row: number) => void): void {
    const within = tolerance[landmarkKindOf(cell)];
    for (const near of cellsAround(cell, around)) {
      for (let at = this.#firsts.get(near) ?? this.#cells.length; this.#cells[at] === near; at += 1) {
        if (this.#isLike(around, at * around.length, within)) onLike(this.#curves[at], this.#rows[at]);
      }
    }
  }

  #isLike(around: Int16Array, from: number, within: number): boolean {
    let common = 0;
    for (let at = 0; at < around.length; at += 1) {
      const [one, two] = [around[at], this.#around[from + at]];
      if (one === unknownLevel || two === unknownLevel) continue;
      if (one - two > within || two - one > within) return false;
      common += 1;
    }
    return common >= fewestCommon;
  }
}
