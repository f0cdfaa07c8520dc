import type { Evidence } from '../checks/check.ts';
import type { VacuumLimit } from '../charts/vacuum-recording.ts';
import type { LimitOrigin, StoryLimits } from '../pages/story-material.ts';
import { durationText } from '../units/display.ts';

/** The evidence of a job's findings by check. */
export type EvidenceByCheck = ReadonlyMap<string, Evidence>;

/** The pressures that the findings held the recording against, as lines of its charts. */
export function evidenceLimits(evidence: EvidenceByCheck): VacuumLimit[] {
  const lines: VacuumLimit[] = [];
  const targetPa = evidenceFigure(evidence.get('target-not-reached'), 'target_pa');
  if (targetPa !== undefined) lines.push({ label: 'target', pa: targetPa, of: 'pull-down' });
  const rise = evidence.get('rise-over-limit');
  const limitPa = evidenceFigure(rise, 'limit_pa');
  const isolationPa = evidenceFigure(rise, 'isolation_pa');
  if (limitPa === undefined || isolationPa === undefined) return lines;
  const countsAtS = limitTime(rise);
  const when = countsAtS === undefined ? 'after isolation' : `after ${durationText(countsAtS)}`;
  const counts = countsAtS === undefined ? {} : { countsAtS };
  if (rise?.limit_kind === 'level') lines.push({ label: `limit ${when}`, pa: limitPa, of: 'rise', ...counts });
  else lines.push({ label: `allowed ${when}`, pa: isolationPa + limitPa, of: 'rise', ...counts });
  return lines;
}

/** What a job was held against, for its story. */
export function storyLimits(evidence: EvidenceByCheck, pullTargetPa: number): StoryLimits {
  const [hold, watched, rise] = ['hold-short', 'rise-test-short', 'rise-over-limit'].map((id) => evidence.get(id));
  const kind = rise?.limit_kind;
  const [pressed, stood] = ['test-pressure-not-reached', 'pressure-test-short'].map((id) => evidence.get(id));
  return defined({
    pullTargetPa,
    targetPa: evidenceFigure(hold, 'target_pa'),
    heldS: evidenceFigure(hold, 'hold_s'),
    wantedS: evidenceFigure(hold, 'wanted_s'),
    testS: evidenceFigure(watched, 'asked_s'),
    limitPa: evidenceFigure(rise, 'limit_pa'),
    limitKind: kind === 'level' || kind === 'rise' ? kind : undefined,
    judgedPa: evidenceFigure(rise, 'judged_pa'),
    judgedS: evidenceFigure(rise, 'judged_s'),
    testTargetPa: evidenceFigure(pressed, 'target_test_pa'),
    standAskedS: evidenceFigure(stood, 'asked_s'),
    testTargetFrom: limitOrigin(pressed, 'target_source'),
    standFrom: limitOrigin(stood, 'asked_source'),
  });
}

/** When the limit of a rise counts [s since valve-off]; undefined where that is the end of the isolation. */
function limitTime(rise: Evidence | undefined): number | undefined {
  const isolationS = evidenceFigure(rise, 'isolation_s');
  const judgedS = evidenceFigure(rise, 'judged_s');
  const askedS = evidenceFigure(rise, 'asked_s');
  if (isolationS === undefined) return undefined;
  if (judgedS !== undefined && judgedS < isolationS) return judgedS;
  // A test that ended too early is held against a limit that counts later.
  return askedS !== undefined && askedS > isolationS ? askedS : undefined;
}

/** A figure of a finding's evidence; undefined where it has none. */
export function evidenceFigure(evidence: Evidence | undefined, name: string): number | undefined {
  const value = evidence?.[name];
  return typeof value === 'number' ? value : undefined;
}

/** Who set the limit of a finding; undefined where its evidence does not tell. */
function limitOrigin(evidence: Evidence | undefined, name: string): LimitOrigin | undefined {
  const source = evidence?.[name];
  if (typeof source !== 'string') return undefined;
  return source === 'record' ? 'record' : source === 'common-practice' ? 'practice' : 'policy';
}

/** A record without the entries that are undefined. */
function defined<Row extends object>(row: { [Key in keyof Row]: Row[Key] | undefined }): Row {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined)) as Row;
}
