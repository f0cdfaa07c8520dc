import type { CallbackModels } from '../fleet/callbacks/callback-models.ts';
import { lookBack, type RiskRecord, speaksForList, usualWindowDays } from '../fleet/callbacks/risk-record.ts';
import { type LikelyJob, openJobs, watchList } from '../fleet/callbacks/watch-list.ts';
import { checkNamed } from '../checks/checks.ts';
import type { RevisitKind } from '../checks/check.ts';
import type { RiskFinding, RiskReport, WatchedJob } from '../pages/callback-data.ts';
import { revisitText } from '../pages/revisit-text.ts';
import type { Store } from '../store/store.ts';
import type { UnitSystem } from '../units/display.ts';
import type { InUnits } from '../units/in-units.ts';
import { type FlaggedCheck, flaggedChecks } from './flagged-checks.ts';
import { type CallbackOptions, type OpenCallbacks, openCallbacks } from './open-callbacks.ts';
import { dayOfJob } from './open-fleet.ts';

/** Of which open jobs it is told. */
export interface RiskAsked extends Pick<CallbackOptions, 'onProgress'> {
  /** Over how many days callbacks are foretold; absent: 90. */
  readonly windowDays?: number;
  /** How many open jobs are listed; absent: all. */
  readonly top?: number;
}

export interface RiskOptions extends CallbackOptions, RiskAsked {
  readonly units: UnitSystem;
}

/** Findings that are told of each job. */
const mostFindings = 2;

/**
 * Which open jobs are likeliest to call back, and how right such lists would have been before.
 *
 * @throws DryholdError `not-judged`
 */
export async function riskReport(store: Store, options: RiskOptions): Promise<RiskReport> {
  options.onProgress?.(0, 4, 'reading jobs and callbacks');
  const report = await riskReportOf(store, await openCallbacks(store, options), options);
  return report(options.units);
}

/**
 * The same of callbacks that are open.
 *
 * @param lookedBack what came of earlier lists over the usual window, where that was asked for already
 */
export async function riskReportOf(
  store: Store,
  open: OpenCallbacks,
  { onProgress = () => undefined, windowDays = usualWindowDays, top }: RiskAsked = {},
  lookedBack?: () => Promise<RiskRecord | undefined>,
): Promise<InUnits<RiskReport>> {
  const { fleet, courses, period, lastDay, summary, models } = open;
  onProgress(1, 4, 'what foretells callbacks');
  const model = models.risk;
  onProgress(2, 4, 'looking back');
  const look = lookedBack ?? (() => lookBack(fleet.jobs, courses, period, windowDays));
  const record = model === undefined ? undefined : await look();
  onProgress(3, 4, 'open jobs');
  const isForetold = model !== undefined && models.forerunners.some(({ isForerunner }) => isForerunner);
  const noList = whyNoList(models.areEnough, model, speaksForList(record, isForetold));
  const openNow = openJobs(courses, period, lastDay, windowDays);
  const listed = model === undefined || noList !== null ? [] : watchList(openNow, model, top);
  const expected = openNow.reduce((sum, { baseRisk }) => sum + baseRisk, 0);
  const watched = await watchedJobs(store, open, listed);
  const report = {
    ...summary,
    windowDays,
    openJobs: openNow.length,
    baseRisk: expected / Math.max(1, openNow.length),
    by: model === undefined ? null : models.predictors.by,
    record: record ?? null,
    noList,
    expected,
  };
  return (units) => ({ ...report, watchList: watched.map((job) => job(units)) });
}

function whyNoList(isEnough: boolean, model: CallbackModels['risk'], isWorthIt: boolean): RiskReport['noList'] {
  if (!isEnough) return 'too-few';
  if (model === undefined) return 'not-told';
  return isWorthIt ? null : 'no-better';
}

async function watchedJobs(
  store: Store,
  { fleet }: OpenCallbacks,
  listed: readonly LikelyJob[],
): Promise<InUnits<WatchedJob>[]> {
  const { jobs, unitOf, summary } = fleet;
  await store.fillRows(
    'listed_places',
    { place: 'BIGINT' },
    listed.map(({ job }) => [job]),
  );
  const rows = await store.rows<{
    place: number;
    job_id: string;
    system_id: string | null;
    site_id: string | null;
    refrigerant: string | null;
  }>(`SELECT place, job_id, j.system_id, j.site_id, j.refrigerant
    FROM temp.listed_places JOIN temp.fleet_jobs f ON f.rowid = place JOIN jobs j USING (job_id)`);
  const records = new Map(rows.map((row) => [row.place, row]));
  const flagged = await flaggedChecks(
    store,
    summary.policyId,
    rows.map((row) => row.job_id),
  );
  return listed.flatMap(({ job, ageDays, risk, baseRisk, reasons }): InUnits<WatchedJob>[] => {
    const record = records.get(job);
    if (record === undefined) return [];
    const findings = riskFindings(reasons, flagged.get(record.job_id) ?? []);
    const technician = jobs.units.technician.of[job];
    const watched = {
      jobId: record.job_id,
      systemId: record.system_id,
      siteId: record.site_id,
      refrigerant: record.refrigerant,
      technician: technician < 0 ? null : unitOf('technician', technician),
      day: dayOfJob(jobs, job),
      ageDays,
      risk,
      times: risk.risk / baseRisk,
    };
    const site = onSite(findings.map(({ checkId }) => checkId));
    return [
      (units) => ({
        ...watched,
        findings: findings.map((finding) => ({ ...finding, text: finding.text(units) })),
        onSite: site,
      }),
    ];
  });
}

/** The findings that raise a risk the most: of each reason its worst one, then more of the strongest reason. */
function riskFindings(
  reasons: LikelyJob['reasons'],
  flagged: readonly FlaggedCheck[],
): (Omit<RiskFinding, 'text'> & Pick<FlaggedCheck, 'text'>)[] {
  const ofReasons = reasons.map(({ predictor, ratio }) =>
    flagged
      .filter(({ checkId }) => predictor.skill.checkIds.includes(checkId))
      .map(({ checkId, text }) => ({ checkId, text, ratio })),
  );
  const firsts = ofReasons.flatMap((all) => all.slice(0, 1));
  const rest = ofReasons.flatMap((all) => all.slice(1));
  return [...firsts, ...rest].slice(0, mostFindings);
}

/** What to check on site, by the findings. */
function onSite(checkIds: readonly string[]): WatchedJob['onSite'] {
  const kinds = new Set<RevisitKind>(checkIds.flatMap((id) => checkNamed(id)?.revisit ?? []));
  return [...kinds].map(revisitText);
}
