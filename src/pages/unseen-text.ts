import type { Finding } from '../records/tables/findings.ts';
import { chargeUnseen } from './unseen/charge-unseen.ts';
import { evacuationUnseen } from './unseen/evacuation-unseen.ts';
import { pressureTestUnseen } from './unseen/pressure-test-unseen.ts';
import { recordingUnseen } from './unseen/recording-unseen.ts';
import { riseUnseen } from './unseen/rise-unseen.ts';
import { runTestUnseen } from './unseen/run-test-unseen.ts';
import type { UnseenByCheck, UnseenMaterial } from './unseen/unseen-words.ts';

/** Of every check; a test compares them with the list of checks. */
export const unseenByCheck: UnseenByCheck = {
  ...pressureTestUnseen,
  ...evacuationUnseen,
  ...riseUnseen,
  ...chargeUnseen,
  ...runTestUnseen,
  ...recordingUnseen,
};

/**
 * What a judgement could not have seen, as words that follow "could not have seen": how small a thing the very test could
 * have shown where that was measured, otherwise what its readings do not tell by their nature.
 *
 * @param finding of any check, whatever its outcome
 * @returns empty where nothing was judged, since what was not looked at has its reason already, and for a check not known here
 * @example unseenText({ check_id: 'clock', outcome: 'fail' }, material) // 'which of its times are right.'
 */
export function unseenText(finding: Pick<Finding, 'check_id' | 'outcome'>, material: UnseenMaterial): string {
  const words = unseenByCheck[finding.check_id];
  const isPassed = finding.outcome === 'pass';
  if (words === undefined || (!isPassed && finding.outcome !== 'suspect' && finding.outcome !== 'fail')) return '';
  const phrases = (isPassed ? words.passed : (words.flagged ?? words.passed))(material).filter(
    (phrase) => phrase !== '',
  );
  return phrases.length === 0 ? '' : `${phrases.join('; ')}.`;
}
