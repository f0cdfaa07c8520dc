import { median } from '../../src/numerics/median.ts';
import { wilsonInterval } from '../../src/numerics/wilson-interval.ts';
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
  readonly bad: readonly ClaimCase[];
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
  return {
    what,
    cases: cases.length,
    figure,
    measured: none ? '–' : shares ? `${write(figure)} ${interval(cases)}` : write(figure),
    goal: wanted,
    met: none || wanted === '' ? undefined : figure >= (least ?? figure) && figure <= (most ?? figure),
    bad: cases.filter((one) => one.badness > 0).sort((a, b) => b.badness - a.badness),
  };
}

function interval(cases: readonly ClaimCase[]): string {
  const { low, high } = wilsonInterval(cases.filter((one) => one.value).length, cases.length);
  return `(${(low * 100).toFixed(1)}–${(high * 100).toFixed(1)})`;
}
