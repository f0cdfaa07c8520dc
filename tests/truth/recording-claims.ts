import { type Claim, type ClaimCase, claim } from './claim.ts';
import type { RecordingTrial } from './recording-trial.ts';

/** A log that nobody tampered with, and what is said of it: a drawn one, or one of a fleet. */
export type RecordingCase = Pick<RecordingTrial, 'plan' | 'truth' | 'outcomes'>;

/** Of logs that nobody tampered with hardly any may be suspect; power comes second and has no goal. */
const mostFalse = 0.005;

/** What the checks of the recording claim, of logs as they were recorded and of the same logs with a fault. */
export function recordingClaims(clean: readonly RecordingTrial[], faulty: readonly RecordingTrial[]): Claim[] {
  const names = [...new Set(faulty.map(({ plan }) => plan.kind))];
  return [
    ...falseAlarmClaims(clean),
    ...names.map((name) => claim(name, faulty.filter(({ plan }) => plan.kind === name).map(seenCase))),
  ];
}

/** How rarely logs as they were recorded are accused. */
export function falseAlarmClaims(clean: readonly RecordingCase[]): Claim[] {
  const whole = clean.filter(
    ({ truth }) => truth.log_gap_s === undefined && truth.scale_upset?.includes('switched-off') !== true,
  );
  return [
    claim('gaps seen where the recorder left out nothing', whole.map(alarmOf('gaps')), { most: mostFalse }),
    claim('clock: a jump seen where there is none', clean.map(alarmOf('clock')), { most: mostFalse }),
    claim('stuck-sensor: one seen where there is none', clean.map(alarmOf('stuck-sensor')), { most: mostFalse }),
    claim('wrong-unit: one seen where there is none', clean.map(alarmOf('wrong-unit')), { most: mostFalse }),
    claim('off-range: beyond use where nothing is', clean.map(beyondUse), { most: mostFalse }),
  ];
}

function isFlagged(trial: RecordingCase, check: string): boolean {
  const { outcome } = trial.outcomes[check];
  return outcome === 'fail' || outcome === 'suspect';
}

function alarmOf(check: string): (trial: RecordingCase) => ClaimCase {
  return (trial) => {
    const value = isFlagged(trial, check);
    return { plan: trial.plan, value, badness: value ? 1 : 0, says: `${check} says ${trial.outcomes[check].message}` };
  };
}

/** Clamps in the air and swapped columns are true findings of that check. */
function beyondUse(trial: RecordingCase): ClaimCase {
  const { message } = trial.outcomes['off-range'];
  const value = message.startsWith('beyond-');
  return { plan: trial.plan, value, badness: value ? 1 : 0, says: `off-range says ${message}` };
}

/** Whether the check that should see a fault does. */
function seenCase(trial: RecordingTrial): ClaimCase {
  const check = trial.fault?.check ?? '';
  return { plan: trial.plan, value: isFlagged(trial, check), badness: 0, says: '' };
}
