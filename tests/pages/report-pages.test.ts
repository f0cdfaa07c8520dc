import { afterAll, beforeAll, describe } from 'vitest';
import { simulatedStore } from '../steps/simulated-store.ts';
import { hasChromium } from './chromium.ts';
import { filtering } from './report-pages/filtering.ts';
import { keyboard } from './report-pages/keyboard.ts';
import { OpenedReport } from './report-pages/opened-report.ts';
import { opening } from './report-pages/opening.ts';
import { paper } from './report-pages/paper.ts';
import { pictures } from './report-pages/pictures.ts';
import { printing } from './report-pages/printing.ts';
import { reading } from './report-pages/reading.ts';
import { unitsShown } from './report-pages/units.ts';

// One report, looked at in a browser; what is looked at is told in the files of the folder beside this one.

if (!hasChromium) console.warn('no /usr/bin/chromium: the pages of a report are not looked at in a browser');

describe.skipIf(!hasChromium)('the pages of a report in chromium', { timeout: 120_000 }, () => {
  let opened: OpenedReport;
  const report = () => opened;

  beforeAll(async () => {
    // Slow gauges: the pages are the same, and it is there sooner.
    opened = await OpenedReport.of((folder) => simulatedStore(folder, { jobs: 300, seed: 7, intervalS: 20 }));
  }, 120_000);
  afterAll(() => opened.close());

  opening(report);
  filtering(report);
  reading(report);
  unitsShown(report);
  keyboard(report);
  printing(report);
  paper(report);
  pictures(report);
});
