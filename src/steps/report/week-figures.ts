import { checks } from '../../checks/checks.ts';
import { dayOf } from '../../numerics/calendar-day.ts';
import type { WeekFigures } from '../../pages/service-manager-data.ts';
import { query } from '../../store/sql.ts';
import type { ReportScope } from './report-scope.ts';

/** What the last week came to, beside the four weeks before it. */
export async function weekFigures({ store, policy, open, week, period }: ReportScope): Promise<WeekFigures> {
  const { from, to } = week;
  const none = { jobs: 0, judged: 0, flagged: 0 };
  const counts =
    from === ''
      ? []
      : await store.rows<{ is_week: boolean; jobs: number; judged: number; flagged: number }>(query('week-counts'), [
          from,
          to,
        ]);
  const [own, before] = [true, false].map((isWeek) => counts.find(({ is_week }) => is_week === isWeek) ?? none);
  const found = await store.rows<{ check_id: string; judged: number; found: number }>(query('week-checks'), [
    policy.id,
    from,
    to,
  ]);
  const [charged] = await store.rows<{ kg: number; jobs: number }>(
    `SELECT coalesce(sum(kg), 0) AS kg, count(*) FILTER (kg > 0) AS jobs FROM (
       SELECT coalesce(f.charged_kg, j.weighed_in_kg) AS kg FROM jobs j LEFT JOIN facts f USING (job_id)
       WHERE left(j.started_at, 10) BETWEEN $1 AND $2)`,
    [from, to],
  );
  const callbacks = open.callbacks.filter(
    ({ reportedAt }) => reportedAt.slice(0, 10) >= from && reportedAt.slice(0, 10) <= to,
  );
  return {
    from,
    to,
    jobs: own.jobs,
    jobsJudged: own.judged,
    jobsFlagged: own.flagged,
    before: {
      days: from === '' ? 0 : Math.max(0, Math.min(28, dayOf(from) - dayOf(period.from))),
      jobs: before.jobs,
      jobsJudged: before.judged,
      jobsFlagged: before.flagged,
    },
    checks: checks.map(({ id }) => {
      const { found: flagged, judged } = found.find(({ check_id }) => check_id === id) ?? { found: 0, judged: 0 };
      return { checkId: id, found: flagged, judged };
    }),
    callbacks: callbacks.length,
    callbacksOfCommissioning: callbacks.filter(({ cause }) => cause.cause === 'commissioning').length,
    chargedKg: charged.kg,
    chargedJobs: charged.jobs,
  };
}
