import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { renderServiceManagerPage } from '../pages/service-manager-page.ts';
import type { Store } from '../store/store.ts';
import { type ReportOptions, serviceManagerData } from './report-data.ts';

/**
 * Writes the readers' pages into a folder.
 *
 * @returns the path of the start page
 * @throws DryholdError `not-judged`
 */
export async function report(store: Store, outDir: string, options: ReportOptions): Promise<string> {
  const page = await renderServiceManagerPage(await serviceManagerData(store, options));
  mkdirSync(outDir, { recursive: true });
  const path = join(outDir, 'index.html');
  writeFileSync(path, page);
  return path;
}
