import { solveLinear } from '../../numerics/solve-linear.ts';
import { type BoundaryGoal, type BoundaryKind, boundaryStart, startTemperatures } from './boundary-start.ts';
import type { Mixture } from './mixture.ts';
import { type PhaseState, phaseState } from './phase-state.ts';

/** A point of the boundary. */
export interface BoundaryPoint {
  readonly converged: true;
  readonly temperatureK: number;
  readonly pressurePa: number;
  /** Density of the phase that has the mixture's composition [kg/m³]. */
  readonly densityKgPerM3: number;
  /** ln of each component's fugacity in Pa, the same in both phases. */
  readonly lnFugacity: Float64Array;
  /** Largest difference of ln fugacity between the phases, without dimension. */
  readonly residual: number;
}

/** No point was found, and why. */
export interface NotConverged {
  readonly converged: false;
  /**
   * `end-of-curve`: the curve ended on the way, as it does at the critical region, and for blends of unlike fluids in the
   * cold where it turns between two liquids; `two-liquids`: a solution was found, but the liquid would part in two;
   * `no-start`: not even an easy point was found.
   */
  readonly reason: 'end-of-curve' | 'two-liquids' | 'no-start';
  /** The last point found on the way; NaN where there was none. */
  readonly lastK: number;
  readonly lastPa: number;
}

/** A step of every unknown after which the next would be lost in rounding; the difference of ln fugacity that rounding may leave. */
const STEP = 1e-8;
const RESIDUAL = 1e-8;
const ITERATIONS = 15;
/** Difference of the unknowns for the derivatives, and the longest step of one iteration. */
const DIFFERENCE = 1e-7;
const LONGEST_STEP = 0.5;
/** Phases nearer than this in density are one and the same. */
const LEAST_DENSITY_RATIO = 1.1;
/** The longest and the shortest stride towards a point, in ln T or ln p. */
const LONGEST_STRIDE: Readonly<Record<BoundaryGoal, number>> = { temperatureK: 0.03, pressurePa: 0.3 };
const LEAST_STRIDE = 2e-5;
/** How many times as far as the last two points are apart a line through them may be drawn on. */
const FARTHEST = 3;

/** What Newton's method settled on. */
interface Settled {
  /** ln of the density [mol/m³] of the parent phase and of the incipient one, ln of the incipient one's mole fractions, ln T. */
  readonly unknowns: Float64Array;
  readonly pressurePa: number;
}

/**
 * The boundary between one phase and two of a mixture, walked from point to point.
 *
 * Newton's method on the densities of both phases, the composition of the one that begins to form, and the temperature.
 * Each point starts from those before, so that neighbours are cheap, and the critical region is approached in ever shorter
 * strides.
 *
 * Source: equal pressures and fugacities, `kunz-wagner-2012`.
 */
export class PhaseBoundary {
  readonly #mixture: Mixture;
  readonly #kind: BoundaryKind;
  #here: Settled | undefined;
  #before: Settled | undefined;
  #residual = Number.NaN;

  constructor(mixture: Mixture, kind: BoundaryKind) {
    this.#mixture = mixture;
    this.#kind = kind;
  }

  /**
   * The point at a temperature [K] or a pressure [Pa], absolute; where none is found, the boundary stays at the last point
   * on the way.
   */
  at(goal: BoundaryGoal, value: number): BoundaryPoint | NotConverged {
    if (this.#here === undefined) this.#start(goal, value);
    const target = Math.log(value);
    let stride = LONGEST_STRIDE[goal];
    while (this.#here !== undefined && stride >= LEAST_STRIDE) {
      const place = placeOf(this.#here, goal);
      const arrives = Math.abs(target - place) <= stride;
      const next = arrives ? target : place + Math.sign(target - place) * stride;
      if (this.#settle(this.#guess(this.#here, goal, next - place), goal, next)) {
        if (arrives) return this.#point(this.#here);
      } else stride = Math.min(stride, Math.abs(next - place)) / 2;
    }
    if (this.#here === undefined)
      return { converged: false, reason: 'no-start', lastK: Number.NaN, lastPa: Number.NaN };
    const lastK = Math.exp(placeOf(this.#here, 'temperatureK'));
    return { converged: false, reason: 'end-of-curve', lastK, lastPa: this.#here.pressurePa };
  }

  #point({ unknowns, pressurePa }: Settled): BoundaryPoint {
    return {
      converged: true,
      temperatureK: Math.exp(unknowns[unknowns.length - 1]),
      pressurePa,
      densityKgPerM3: Math.exp(unknowns[0]) * this.#mixture.molarMassKgPerMol,
      lnFugacity: this.#parent(unknowns).lnFugacity,
      residual: this.#residual,
    };
  }

  #start(goal: BoundaryGoal, value: number): void {
    const temperatures = startTemperatures(this.#mixture, this.#kind, goal, value);
    for (const improved of [false, true]) {
      for (const temperatureK of temperatures) {
        const guess = boundaryStart(this.#mixture, this.#kind, temperatureK, improved);
        if (this.#settle(guess, 'temperatureK', Math.log(temperatureK))) return;
      }
    }
  }

  /** Unknowns a stride ahead, on the line through the last two points. */
  #guess(here: Settled, goal: BoundaryGoal, stride: number): Float64Array {
    const { unknowns } = here;
    if (this.#before === undefined) return Float64Array.from(unknowns);
    const before = this.#before.unknowns;
    const ahead = stride / (placeOf(here, goal) - placeOf(this.#before, goal));
    if (!(Math.abs(ahead) <= FARTHEST)) return Float64Array.from(unknowns);
    return unknowns.map((unknown, k) => unknown + ahead * (unknown - before[k]));
  }

  /** Newton's method from a guess, which is overwritten; true, and the new point taken, where it converged. */
  #settle(unknowns: Float64Array, goal: BoundaryGoal, target: number): boolean {
    const n = unknowns.length;
    for (let iteration = 0; iteration < ITERATIONS; iteration += 1) {
      const parent = this.#parent(unknowns);
      const incipient = this.#incipient(unknowns);
      const here = this.#differences(unknowns, parent, incipient, goal, target);
      const matrix = new Float64Array(n * n);
      for (let column = 0; column < n; column += 1) {
        const moved = Float64Array.from(unknowns);
        moved[column] += DIFFERENCE;
        const there = this.#differences(
          moved,
          column === 0 || column === n - 1 ? this.#parent(moved) : parent,
          column === 0 ? incipient : this.#incipient(moved),
          goal,
          target,
        );
        for (let row = 0; row < n; row += 1) matrix[row * n + column] = (there[row] - here[row]) / DIFFERENCE;
      }
      this.#residual = here.subarray(0, n - 3).reduce((most, gap) => Math.max(most, Math.abs(gap)), 0);
      const step = here.map((difference) => -difference);
      if (!solveLinear(matrix, step)) return false;
      const longest = step.reduce((most, part) => Math.max(most, Math.abs(part)), 0);
      const damping = Math.min(1, LONGEST_STEP / longest);
      for (let k = 0; k < n; k += 1) unknowns[k] += damping * step[k];
      if (longest < STEP && this.#residual < RESIDUAL) return this.#take(unknowns);
    }
    return false;
  }

  /** Takes a solution, unless its phases are one and the same or one of them cannot exist. */
  #take(unknowns: Float64Array): boolean {
    const rise = this.#kind === 'bubble' ? unknowns[0] - unknowns[1] : unknowns[1] - unknowns[0];
    const parent = this.#parent(unknowns);
    const incipient = this.#incipient(unknowns);
    if (!(rise > Math.log(LEAST_DENSITY_RATIO))) return false;
    if (!(parent.stiffnessPaM3PerMol > 0 && incipient.stiffnessPaM3PerMol > 0)) return false;
    this.#before = this.#here;
    this.#here = { unknowns, pressurePa: this.#vapourPa(parent, incipient) };
    return true;
  }

  #parent(unknowns: Float64Array): PhaseState {
    const temperatureK = Math.exp(unknowns[unknowns.length - 1]);
    return phaseState(this.#mixture, temperatureK, Math.exp(unknowns[0]), this.#mixture.moleFractions);
  }

  #incipient(unknowns: Float64Array): PhaseState {
    const temperatureK = Math.exp(unknowns[unknowns.length - 1]);
    return phaseState(this.#mixture, temperatureK, Math.exp(unknowns[1]), unknowns.subarray(2, -1).map(Math.exp));
  }

  /** The vapour's pressure: the liquid's is lost in rounding far below the critical point. */
  #vapourPa(parent: PhaseState, incipient: PhaseState): number {
    return this.#kind === 'bubble' ? incipient.pressurePa : parent.pressurePa;
  }

  /** What must vanish: differences of ln fugacity, of pressure, of the fractions' sum from 1, and of the goal. */
  #differences(
    unknowns: Float64Array,
    parent: PhaseState,
    incipient: PhaseState,
    goal: BoundaryGoal,
    target: number,
  ): Float64Array {
    const n = unknowns.length;
    const lnT = unknowns[n - 1];
    const scalePa = this.#mixture.gasConstantJPerMolK * Math.exp(Math.min(unknowns[0], unknowns[1]) + lnT);
    const out = new Float64Array(n);
    let total = 0;
    for (let i = 0; i < n - 3; i += 1) {
      out[i] = parent.lnFugacity[i] - incipient.lnFugacity[i];
      total += Math.exp(unknowns[i + 2]);
    }
    out[n - 3] = (parent.pressurePa - incipient.pressurePa) / scalePa;
    out[n - 2] = total - 1;
    out[n - 1] = (goal === 'temperatureK' ? lnT : Math.log(this.#vapourPa(parent, incipient))) - target;
    return out;
  }
}

/** Where a point is along the boundary: ln T or ln p. */
function placeOf({ unknowns, pressurePa }: Settled, goal: BoundaryGoal): number {
  return goal === 'temperatureK' ? unknowns[unknowns.length - 1] : Math.log(pressurePa);
}
