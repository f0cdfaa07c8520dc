import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { renderOwnerPage } from '../pages/owner-page.ts';
import { renderServiceManagerPage } from '../pages/service-manager-page.ts';
import type { Store } from '../store/store.ts';
import { writeWholeText } from '../store/whole-file.ts';
import { ownerData } from './owner-data.ts';
import { type ReportOptions, serviceManagerData } from './report-data.ts';

/** What a report wrote, and what its first lines say. */
export interface ReportResult {
  /** The path of the start page. */
  readonly page: string;
  /** The path of the owner's page. */
  readonly ownerPage: string;
  readonly jobs: number;
  /** Jobs that at least one check could judge. */
  readonly jobsJudged: number;
  /** Jobs of those with a suspect or fail finding. */
  readonly jobsFlagged: number;
  /** The job to look at first: the worst of the last week; null where that week has none. */
  readonly lookFirst: string | null;
}

/**
 * Writes the readers' pages into a folder.
 *
 * @throws DryholdError `not-judged`
 */
export async function report(store: Store, outDir: string, options: ReportOptions): Promise<ReportResult> {
  const data = await serviceManagerData(store, options);
  mkdirSync(outDir, { recursive: true });
  const page = join(outDir, 'index.html');
  await writeWholeText(page, await renderServiceManagerPage(data));
  const ownerPage = join(outDir, 'owner.html');
  await writeWholeText(ownerPage, await renderOwnerPage(await ownerData(store, options)));
  const { jobs, jobsJudged, jobsFlagged, lookAt } = data;
  return { page, ownerPage, jobs, jobsJudged, jobsFlagged, lookFirst: lookAt[0]?.jobId ?? null };
}
