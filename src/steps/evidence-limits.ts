import type { Evidence } from '../checks/check.ts';
import type { VacuumLimit } from '../charts/vacuum-recording.ts';
import type { StoryLimits } from '../pages/story-material.ts';
import { durationText } from '../units/display.ts';

/** The evidence of a job's findings by check. */
export type EvidenceByCheck = ReadonlyMap<string, Evidence>;

/** The pressures that the findings held the recording against, as lines of its charts. */
export function evidenceLimits(evidence: EvidenceByCheck): VacuumLimit[] {
  const lines: VacuumLimit[] = [];
  const targetPa = figure(evidence.get('target-not-reached'), 'target_pa');
  if (targetPa !== undefined) lines.push({ label: 'target', pa: targetPa, of: 'pull-down' });
  const rise = evidence.get('rise-over-limit');
  const limitPa = figure(rise, 'limit_pa');
  const isolationPa = figure(rise, 'isolation_pa');
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
  return defined({
    pullTargetPa,
    targetPa: figure(hold, 'target_pa'),
    heldS: figure(hold, 'hold_s'),
    wantedS: figure(hold, 'wanted_s'),
    testS: figure(watched, 'asked_s'),
    limitPa: figure(rise, 'limit_pa'),
    limitKind: kind === 'level' || kind === 'rise' ? kind : undefined,
    judgedPa: figure(rise, 'judged_pa'),
    judgedS: figure(rise, 'judged_s'),
  });
}

/** When the limit of a rise counts [s since valve-off]; undefined where that is the end of the isolation. */
function limitTime(rise: Evidence | undefined): number | undefined {
  const isolationS = figure(rise, 'isolation_s');
  const judgedS = figure(rise, 'judged_s');
  const askedS = figure(rise, 'asked_s');
  if (isolationS === undefined) return undefined;
  if (judgedS !== undefined && judgedS < isolationS) return judgedS;
  // A test that ended too early is held against a limit that counts later.
  return askedS !== undefined && askedS > isolationS ? askedS : undefined;
}

function figure(evidence: Evidence | undefined, name: string): number | undefined {
  const value = evidence?.[name];
  return typeof value === 'number' ? value : undefined;
}

/** A record without the entries that are undefined. */
function defined<Row extends object>(row: { [Key in keyof Row]: Row[Key] | undefined }): Row {
  return Object.fromEntries(Object.entries(row).filter(([, value]) => value !== undefined)) as Row;
}
