import { cumulativeSum, oddsScore } from './cumulative-sum.ts';
import { type JudgedSeries, type MonthTally, monthPoints, monthTallies } from './month-chart.ts';
import { movingAverage } from './moving-average.ts';

/** A chart says that a unit is no longer what was expected of it. */
export interface ChangeSignal {
  readonly chart: 'cumulative-sum' | 'moving-average' | 'month';
  /** Worse: more is found than was expected. */
  readonly direction: 'worse' | 'better';
  /** Index of the job that set it off; of a month its last. */
  readonly at: number;
  /** Index of the job with which the sum or average last left 0, the likeliest begin of the change; of a month its first. */
  readonly since: number;
  /** Sum [logarithm of a likelihood ratio], average or share [ratio] that set it off. */
  readonly level: number;
  /** What it reached or passed, in the same unit. */
  readonly limit: number;
}

/** The changes that the sums are to find: odds doubled and halved. */
const oddsRatios = { worse: 2, better: 1 / 2 } as const;

/**
 * The sums signal from here: set by simulation, no source. Of series of 100 jobs with chances of 0.05 to 0.5 in which nothing changes,
 * 0.8 to 1.0 % have a signal, as many worse as better; 1.2 % at a chance of 0.3, 0.2 % at 0.1.
 */
const sumLimits = { worse: 5.8, better: 5.3 } as const;

/**
 * Of the newest job in the moving average: set by simulation, no source. With 0.03 the average signals halved odds at 0.2 within 120
 * jobs on 14 %; before its limits grew with the jobs it was 19 %, with 0.05 6 %.
 */
const averageWeight = 0.03;

/**
 * Limits of the moving average, in its own deviations if it were normal: set by simulation, no source. Of the same series 0.9 % have a
 * signal, two thirds of them worse; 0.8 % at a chance of 0.3, 0.4 % at 0.05. Without its skewness 12 % signal at 0.05, all worse.
 */
const averageWidth = 3.45;

/** The limits are those of series of so many jobs. */
const calibratedJobs = 100;

/** A month that is off by less of what was expected tells nobody anything, however many jobs it rests on. Common practice, no source. */
const leastOff = 0.1;

/** An average or a month that is off by fewer standard deviations is within its limits, however skewed: they need not be worked out. */
const neverOut = { average: 1.2, month: 1.8 } as const;

const directions = ['worse', 'better'] as const;

/**
 * When a unit changed, by three charts: the sum of what each job says for doubled or halved odds, the moving average of what was found
 * beyond what was expected, and the months.
 *
 * Average and months count where the sum came half way. A change that lasts is signalled once: by a sum and the average until they are back at 0, by months once for all that follow each other. Nothing is said of a cause. Limits of sum
 * and average grow slowly with the jobs, so that a long series has hardly more signals by chance than a short one.
 *
 * @returns in the order of the jobs that set them off
 *
 * Source: `steiner-2000` for the sums, `nist-sematech-handbook`, 6.3.2.4, for the average, `wilson-hilferty-1931` for its skewness.
 * Accuracy: by simulation. Tripled odds where 0.2 were found are signalled by the sums after 42 jobs (median), within 60 on 79 %,
 * within 120 on 99 %; doubled ones after 89 jobs, on 28 % and 69 %; halved ones after 149, on 7 % and 36 %. Where 0.3 were found:
 * 37 jobs, 88 % and 99.7 %; 73 jobs, 39 % and 79 %; 98 jobs, 21 % and 64 %. The average signals tripled odds at 0.2 after 43 jobs, on 73 %
 * and 97 %; months of eight jobs on 32 % and 57 %, of thirty on 50 % and 84 %. Months of eight never signal halved odds.
 *
 * @example changeSignals({ found: [1, 1, 1, 1, 1], chances: Array(5).fill(0.05), days: [0, 1, 2, 3, 4] }).map(({ chart }) => chart) // ['moving-average', 'month']
 */
export function changeSignals(series: JudgedSeries): ChangeSignal[] {
  const sums = directions.map((direction) => sumSignals(series, direction));
  // Where neither sum came half way, no other chart tells of anything but chance.
  if (sums.every(({ highest }, at) => highest < sumLimits[directions[at]] / 2)) return [];
  const signals = [...sums.flatMap((sum) => sum.signals), ...averageSignals(series), ...monthSignals(series)];
  return signals
    .filter(({ direction }) => sums[directions.indexOf(direction)].highest >= sumLimits[direction] / 2)
    .sort((a, b) => a.at - b.at);
}

/** Signals of a sum, and the highest it came. */
function sumSignals(
  { found, chances }: JudgedSeries,
  direction: ChangeSignal['direction'],
): { signals: ChangeSignal[]; highest: number } {
  const scores = new Float64Array(found.length);
  for (let at = 0; at < scores.length; at += 1)
    scores[at] = oddsScore(found[at] === 1, chances[at], oddsRatios[direction]);
  const limitAt = (at: number): number => sumLimits[direction] + rarer(at);
  const sums = cumulativeSum(scores, limitAt);
  const signals: ChangeSignal[] = [];
  let [highest, since, signalled] = [0, 0, -1];
  for (let at = 0; at < sums.length; at += 1) {
    const level = sums[at];
    if (level > highest) highest = level;
    if (level >= sumLimits[direction] && level >= limitAt(at)) {
      // What began just after the last signal is the same change, which lasts.
      if (since > signalled + 1 || signalled < 0)
        signals.push({ chart: 'cumulative-sum', direction, at, since, level, limit: limitAt(at) });
      signalled = at;
    }
    if (level === 0 || signalled === at) since = at + 1;
  }
  return { signals, highest };
}

function averageSignals({ found, chances }: JudgedSeries): ChangeSignal[] {
  const [residuals, variances] = [new Float64Array(found.length), new Float64Array(found.length)];
  for (let job = 0; job < found.length; job += 1) {
    residuals[job] = found[job] - chances[job];
    variances[job] = chances[job] * (1 - chances[job]);
  }
  const { level, deviation } = movingAverage(residuals, variances, averageWeight);
  const signals: ChangeSignal[] = [];
  let [since, isOut, cubes] = [0, false, 0];
  for (let at = 0; at < level.length; at += 1) {
    cubes = averageWeight ** 3 * variances[at] * (1 - 2 * chances[at]) + (1 - averageWeight) ** 3 * cubes;
    if (at > 0 && level[at] > 0 !== level[at - 1] > 0) [since, isOut] = [at, false];
    if (isOut || Math.abs(level[at]) < neverOut.average * deviation[at]) continue;
    const skewness = cubes / deviation[at] ** 3;
    const direction = level[at] > 0 ? 'worse' : 'better';
    const side = direction === 'worse' ? 1 : -1;
    const width = Math.sqrt(averageWidth ** 2 + 2 * rarer(at));
    const limit = deviation[at] * skewedQuantile(side * width, skewness);
    if (!(side * level[at] > side * limit)) continue;
    isOut = true;
    signals.push({ chart: 'moving-average', direction, at, since, level: level[at], limit });
  }
  return signals;
}

/**
 * By how much rarer a signal by chance must be at a job than at the first hundred, as a logarithm: long series have not many more of
 * them, and what was signalled once stays so whatever comes later.
 */
function rarer(at: number): number {
  return Math.log(Math.max(1, at / calibratedJobs));
}

/** What stands for a quantile of the normal distribution in one of the same deviation with a skewness: the gamma distribution. */
function skewedQuantile(normal: number, skewness: number): number {
  if (Math.abs(skewness) < 1e-3) return normal;
  const root = Math.max(0, 1 + (skewness * normal) / 6 - skewness ** 2 / 36);
  return (2 / skewness) * (root ** 3 - 1);
}

function monthSignals(series: JudgedSeries): ChangeSignal[] {
  const signals: ChangeSignal[] = [];
  let side: ChangeSignal['direction'] | undefined;
  for (const tally of monthTallies(series)) {
    const direction = sideOf(tally);
    // A month that follows one out on the same side tells nothing new.
    if (direction !== undefined && direction !== side) {
      const [month] = monthPoints([tally]);
      const limit = direction === 'worse' ? month.high : month.low;
      signals.push({ chart: 'month', direction, at: tally.end - 1, since: tally.from, level: month.share, limit });
    }
    side = direction;
  }
  return signals;
}

/** On which side of its limits a month is, by more than nobody cares about. */
function sideOf(tally: MonthTally): ChangeSignal['direction'] | undefined {
  const { found, variance } = tally.expectation;
  const off = Math.abs(tally.found - found);
  if (off < neverOut.month * Math.sqrt(variance) || off < leastOff * found) return undefined;
  const [{ isOut, share, high }] = monthPoints([tally]);
  return isOut ? (share > high ? 'worse' : 'better') : undefined;
}
