import { leastGapS } from '../../facts/recording/gap-facts.ts';
import { durationText } from '../../units/display.ts';
import type { UnseenByCheck, UnseenMaterial } from './unseen-words.ts';

/** What a log cannot tell of itself. */
export const recordingUnseen: UnseenByCheck = {
  gaps: {
    passed: () => [
      `what happened between readings, in gaps of less than ${durationText(leastGapS)}, or before the log began and after it ended`,
    ],
    flagged: ({ facts }) => [
      facts.gap_longest_s === undefined
        ? 'what happened in the gaps'
        : `what happened in the gaps, of which the longest took ${durationText(facts.gap_longest_s)}`,
    ],
  },
  clock: {
    passed: () => ['a clock that was wrong all along: a log tells its times only among themselves'],
    flagged: () => ['which of its times are right'],
  },
  'stuck-sensor': {
    passed: () => ['a sensor that lives and reads wrong', 'one that hung while nothing moved'],
    flagged: ({ facts }) => [
      facts.stuck_s === undefined
        ? 'what there was to be read meanwhile'
        : `what there was to be read in those ${durationText(facts.stuck_s)}`,
    ],
  },
  'wrong-unit': {
    passed: () => ['another unit in a column of which nothing else tells', 'one in which the readings are as likely'],
    flagged: () => ['the unit itself: it is inferred from what such readings can be'],
  },
  'off-range': {
    passed: () => ['a reading that is possible and yet wrong'],
    flagged: () => ['which of sensor, unit, column and entry is at fault'],
  },
  'copied-trace': {
    passed: (material) => [
      plainCurves(material),
      'a curve whose other job is not in this store',
      'logs of scale and run, which are held beside none',
    ],
    flagged: () => ['to which of the jobs the curve belongs, and why it stands in both'],
  },
};

/** Pressure curves with nothing to tell them from others. */
function plainCurves({ facts }: UnseenMaterial): string {
  const { pressure_curves: all, compared_curves: compared } = facts;
  if (all === undefined || compared === undefined || compared >= all) return '';
  return `${all - compared} of ${all} pressure curves, too plain to be told from others`;
}
