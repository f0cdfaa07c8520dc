import { countText } from '../../pages/share-text.ts';
import type { Store } from '../../store/store.ts';

/** What a reader should know of the data: what could not be judged, what has no record, what is not in yet, what was refused. */
export async function reportNotes(store: Store): Promise<string[]> {
  const [counts] = await store.rows<{ unjudged: number; recordless: number; stale: number; refused: number }>(`SELECT
    (SELECT count(*) FROM temp.job_outcomes WHERE NOT judged) AS unjudged,
    (SELECT count(*) FROM temp.job_outcomes WHERE started_at IS NULL) AS recordless,
    (SELECT count(*) FROM job_revisions r LEFT JOIN facts_made f USING (job_id) WHERE f.revision IS DISTINCT FROM r.revision) AS stale,
    (SELECT count(*) FROM rejects) AS refused`);
  return [
    ...(counts.unjudged > 0
      ? [
          `${countText(counts.unjudged, 'job')} could not be judged by any check: no usable log and no usable record of the charge.`,
        ]
      : []),
    ...(counts.recordless > 0
      ? [
          `Readings without a job record: ${countText(counts.recordless, 'job')}, whose day, crew and technician are not known.`,
        ]
      : []),
    ...(counts.stale > 0
      ? [
          `Came in or changed since the last judging, and not in here as it stands now: ${countText(counts.stale, 'job')}. Run "dryhold judge", then "dryhold report" again.`,
        ]
      : []),
    ...(counts.refused > 0
      ? [
          `Refused when they came in: ${countText(counts.refused, 'row or file', 'rows or files')}; "dryhold rejects" lists them.`,
        ]
      : []),
  ];
}
