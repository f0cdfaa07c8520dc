import { chartSpecification } from '../../pages/chart-specification.ts';
import { figurePicture } from '../../pages/figure-picture.ts';
import { PageCharts } from '../../pages/page-charts.ts';
import type { PageContent } from '../../pages/page-content.ts';
import { pageShell } from '../../pages/page-shell.ts';
import { picturePng } from '../../pages/picture-png.ts';
import { chartsFolder, specsFolder } from '../../pages/report-places.ts';
import type { ReportForm } from './report-form.ts';

/** A file of a report, by its place in the folder. */
export interface ReportFile {
  readonly file: string;
  readonly content: string | Uint8Array;
}

/**
 * What a page of a report becomes: itself, or pictures of its charts; and their specifications, where they are asked for.
 *
 * @param file of the page: `jobs/w-103.html`. A page that is to be printed comes as what is printed
 */
export async function pageFiles(file: string, page: PageContent, { format, specs }: ReportForm): Promise<ReportFile[]> {
  const isPage = format === 'html' || format === 'pdf';
  return [
    ...(isPage ? [{ file, content: await pageShell(page) }] : []),
    ...(isPage && !specs ? [] : await chartFiles(file, page, { format, specs })),
  ];
}

async function chartFiles(file: string, page: PageContent, { format, specs }: ReportForm): Promise<ReportFile[]> {
  const charts = new PageCharts();
  await page.body(page.reader.units, charts);
  const counted = new Map<string, number>();
  const files: ReportFile[] = [];
  for (const figure of charts.figures) {
    const count = (counted.get(figure.name) ?? 0) + 1;
    counted.set(figure.name, count);
    const path = `${file.replace(/\.html$/, '')}/${figure.name}${count === 1 ? '' : `-${count}`}`;
    if (specs)
      files.push({
        file: `${specsFolder}/${path}.vl.json`,
        content: chartSpecification(figure, charts.rows, page.reader.dates),
      });
    if (format !== 'svg' && format !== 'png') continue;
    const svg = await figurePicture(figure, charts.rows, page.reader.dates);
    files.push({ file: `${chartsFolder}/${path}.${format}`, content: format === 'svg' ? svg : await picturePng(svg) });
  }
  return files;
}
