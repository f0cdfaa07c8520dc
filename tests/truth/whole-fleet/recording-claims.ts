import { type FaultKind } from '../../../src/simulate/mishaps/fault-kind.ts';
import { type Claim, claim } from '../claim.ts';
import { falseAlarmClaims, type RecordingCase } from '../recording-claims.ts';
import type { FleetJob } from './judged-fleet.ts';

/** The check that should see each kind of fault. */
const checkOf: Readonly<Record<FaultKind, RecordingCheck>> = {
  'clock-ahead': 'clock',
  'clock-back': 'clock',
  'left-out': 'gaps',
  hangs: 'stuck-sensor',
  clipped: 'stuck-sensor',
  unit: 'wrong-unit',
  'time-unit': 'wrong-unit',
};
const recordingChecks = ['gaps', 'clock', 'stuck-sensor', 'wrong-unit'] as const;
type RecordingCheck = (typeof recordingChecks)[number];

/** What is said of logs: of those as they were recorded hardly anything, and what of those with which something went wrong. */
export function fleetRecordingClaims(jobs: readonly FleetJob[], ownJobs: readonly FleetJob[]): Claim[] {
  const faulty = jobs.filter(({ truth }) => truth.recording_fault_kind !== undefined);
  const kinds = Object.entries(checkOf);
  return [
    ...falseAlarmClaims(ownJobs.filter(isRecorded).map(recordingCase)),
    ...kinds.map(([kind, check]) =>
      claim(
        `fault ${kind}, seen by ${check}: recall`,
        faulty
          .filter(({ truth }) => truth.recording_fault_kind === kind)
          .map((one) => ({
            plan: one.plan,
            value: isFlagged(one, check),
            badness: isFlagged(one, check) ? 0 : 1,
            says: faultText(one, check),
            isUntold: isUntold(one, check),
          })),
      ),
    ),
    claim(
      'any fault, seen by any check of the recording: recall',
      faulty.map((one) => {
        const value = recordingChecks.some((check) => isFlagged(one, check));
        return {
          plan: one.plan,
          value,
          badness: value ? 0 : 1,
          says: `${one.truth.recording_fault}`,
          isUntold: recordingChecks.every((check) => isUntold(one, check)),
        };
      }),
    ),
    ...recordingChecks.map((check) =>
      claim(
        `${check} flagged, and ${check === 'gaps' ? 'readings were left out, or the clock put ahead' : 'there is such a fault'}: precision`,
        jobs
          .filter((one) => one.truth.copied_from_job_id === undefined && isFlagged(one, check))
          .map((one) => {
            const value = hasFaultFor(check, one);
            return { plan: one.plan, value, badness: value ? 0 : 1, says: faultText(one, check) };
          }),
      ),
    ),
  ];
}

/** A clock that is put ahead leaves out the same as a recorder that does. */
function hasFaultFor(check: RecordingCheck, one: FleetJob): boolean {
  const { recording_fault_kind: kind } = one.truth;
  if (check === 'gaps' && (kind === 'clock-ahead' || hasOwnGap(one))) return true;
  return kind !== undefined && checkOf[kind] === check;
}

function isRecorded({ findings }: FleetJob): boolean {
  return findings.get('off-range')?.outcome !== 'missing';
}

function recordingCase({ plan, truth, findings }: FleetJob): RecordingCase {
  return {
    plan,
    truth,
    outcomes: Object.fromEntries(findings),
  };
}

/** Also where the scale was switched off in the middle. */
function hasOwnGap({ truth }: FleetJob): boolean {
  return truth.log_gap_s !== undefined || truth.scale_upset?.includes('switched-off') === true;
}

function isFlagged({ findings }: FleetJob, check: string): boolean {
  const outcome = findings.get(check)?.outcome;
  return outcome === 'fail' || outcome === 'suspect';
}

function isUntold({ findings }: FleetJob, check: string): boolean {
  const outcome = findings.get(check)?.outcome;
  return outcome === 'not-evaluated' || outcome === 'missing';
}

function faultText({ truth, findings }: FleetJob, check: string): string {
  return `${truth.recording_fault ?? 'as recorded'}; ${check} says ${findings.get(check)?.message}`;
}
