import { median } from '../../src/numerics/median.ts';
import { type WilsonInterval, wilsonInterval } from '../../src/numerics/wilson-interval.ts';
/** What a trial is told by. */
export interface TrialName {
  readonly seed: number;
  readonly number: number;
  readonly kind: string;
  readonly used?: boolean;
  readonly unmodelled?: { readonly name: string } | undefined;
  readonly gaugeAtPump?: boolean;
  readonly marked?: boolean;
}

/** One trial's part in a claim. */
export interface ClaimCase {
  readonly plan: TrialName;
  /** A figure to take the median of, or whether the trial counts. */
  readonly value: number | boolean;
  /** How bad it is; 0 and below is not listed. */
  readonly badness: number;
  /** Truth and found. */
  readonly says: string;
  /** Whether the product says that it cannot tell; given of every case of a claim, or of none. */
  readonly isUntold?: boolean;
}

/** A line of the table, and the trials that speak against it. */
export interface Claim {
  readonly what: string;
  readonly cases: number;
  /** The share or the median. */
  readonly figure: number;
  readonly measured: string;
  readonly goal: string;
  readonly met: boolean | undefined;
  /** Whether the interval of a share that misses its goal reaches it; absent for others. */
  readonly mayBeChance?: boolean;
  readonly bad: readonly ClaimCase[];
  /** Of the cases those of which the product says that it cannot tell: they are no right ones. Absent where that is not counted. */
  readonly notTold?: number;
}

/** Within which the share or the median must lie; both ends optional. */
export interface ClaimGoal {
  readonly least?: number;
  readonly most?: number;
  /** How the median is written; shares are written in percent. */
  readonly write?: (value: number) => string;
}

const percent = (ratio: number) => `${(ratio * 100).toFixed(1)} %`;

/** A claim on the share of trials that count (values true and false), or on the median of a figure. */
export function claim(what: string, cases: readonly ClaimCase[], goal: ClaimGoal = {}): Claim {
  const { least, most, write = percent } = goal;
  const shares = cases.every((one) => typeof one.value === 'boolean');
  const figure = shares
    ? cases.filter((one) => one.value).length / cases.length
    : median(cases.map((one) => Number(one.value)));
  const wanted = [
    ...(least === undefined ? [] : [`≥ ${write(least)}`]),
    ...(most === undefined ? [] : [`≤ ${write(most)}`]),
  ].join(', ');
  const none = cases.length === 0;
  const met = none || wanted === '' ? undefined : figure >= (least ?? figure) && figure <= (most ?? figure);
  const { low, high } = shares ? wilson(cases) : { low: figure, high: figure };
  return {
    what,
    cases: cases.length,
    figure,
    measured: none ? '–' : shares ? `${write(figure)} ${interval(cases)}` : write(figure),
    goal: wanted,
    met,
    ...(met === false && shares ? { mayBeChance: high >= (least ?? 0) && low <= (most ?? 1) } : {}),
    bad: cases.filter((one) => one.badness > 0).sort((a, b) => b.badness - a.badness),
    ...notTold(cases),
  };
}

function notTold(cases: readonly ClaimCase[]): Pick<Claim, 'notTold'> {
  const isCounted = cases.some(({ isUntold }) => isUntold !== undefined);
  return isCounted ? { notTold: cases.filter(({ isUntold }) => isUntold).length } : {};
}

function wilson(cases: readonly ClaimCase[]): WilsonInterval {
  return wilsonInterval(cases.filter((one) => one.value).length, cases.length);
}

function interval(cases: readonly ClaimCase[]): string {
  const { low, high } = wilson(cases);
  return `(${(low * 100).toFixed(1)}–${(high * 100).toFixed(1)})`;
}
