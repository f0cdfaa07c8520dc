import { existsSync, mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { DryholdError } from '../errors.ts';
import { type AddCommand, Progress, say, sayJson } from './context.ts';
import { countOf, grouped } from './ingest-text.ts';
import { datesOption, type ReaderOptions, readerOf } from './reader-option.ts';
import { withStore } from './with-store.ts';

/** Jobs of the demo's year. */
const demoJobs = 2000;

/** Says that a folder is a demo's own, from before anything is removed in it. */
const markName = '.dryhold-demo';

/** `dryhold demo`: the whole way on an invented shop; the last line is the path of the start page. */
export const addDemo: AddCommand = (program) => {
  program
    .command('demo')
    .summary('the whole way on an invented shop')
    .description(
      'Simulates a year of an invented shop, takes it in, judges it, and reports. The last line is the path of the start page.',
    )
    .option('--out <folder>', 'where bundle, store and pages go; they are made anew', './dryhold-demo')
    .addOption(datesOption())
    .addHelpText('after', '\nexamples:\n  dryhold demo\n  dryhold demo --out somewhere --units si')
    .action(async (options: ReaderOptions & { out: string }) => {
      const { codes = false } = options;
      const [bundle, folder, pages] = ['bundle', 'store', 'report'].map((name) => join(options.out, name));
      assertOwn(options.out);
      mkdirSync(options.out, { recursive: true });
      writeFileSync(join(options.out, markName), '');
      for (const made of [bundle, folder, pages]) rmSync(made, { recursive: true, force: true });
      const [{ simulateFleet }, { writeSimulated }, { ingest }, { judge }, { report }] = await Promise.all([
        import('../simulate/fleet.ts'),
        import('./simulated-bundle.ts'),
        import('../steps/ingest.ts'),
        import('../steps/judge.ts'),
        import('../steps/report.ts'),
      ]);
      const progress = new Progress('simulating', options);
      const written = await writeSimulated(simulateFleet({ jobs: demoJobs, seed: 1 }), bundle, (jobs) =>
        progress.update(jobs, demoJobs),
      ).finally(() => progress.stop());
      const { judged, reported } = await withStore({ ...options, store: folder }, 'write', async (store) => {
        await ingest(store, [bundle]);
        const result = await judge(store);
        return { judged: result, reported: await report(store, pages, { reader: readerOf(options), codes }) };
      });
      if (options.json) {
        sayJson({
          bundle,
          store: folder,
          readings: written.readings,
          outcomes: judged.outcomes,
          ...reported,
        });
        return;
      }
      const { jobs, jobsJudged, jobsFlagged, lookFirst, page } = reported;
      say(
        `Simulated a year of an invented shop into ${bundle}: ${countOf(jobs, 'job')}, ${countOf(written.readings, 'reading')}.`,
      );
      say(
        `Judged into ${folder}: ${grouped(jobsFlagged)} of ${countOf(jobsJudged, 'judged job')} have a fail or suspect finding; ${grouped(jobs - jobsJudged)} could not be judged.`,
      );
      if (lookFirst !== null)
        say(`Look at the job to go back to first with: npx --no-install dryhold show ${lookFirst} --store ${folder}`);
      say(`See who needs what with: npx --no-install dryhold fleet --store ${folder}`);
      say(`See which open jobs are likeliest to call back with: npx --no-install dryhold risk --store ${folder}`);
      say(`See where the refrigerant goes with: npx --no-install dryhold accounts --store ${folder}`);
      say(`See which systems leak past their trigger with: npx --no-install dryhold leaks --store ${folder}`);
      say(
        'Open the start page in a browser; the pages of the service manager, the trainer and the owner are linked from it:',
      );
      say(page);
    });
};

/**
 * Makes sure that what the demo is about to remove is its own.
 *
 * @throws DryholdError `bad-usage` where the folder holds anything that no demo wrote
 */
function assertOwn(folder: string): void {
  if (
    !existsSync(folder) ||
    readdirSync(folder).length === 0 ||
    [markName, join('bundle', 'truth.csv')].some((name) => existsSync(join(folder, name)))
  )
    return;
  throw new DryholdError('bad-usage', {
    problem: `${folder} holds files that no demo wrote, and the demo makes its folder anew; give --out another folder`,
  });
}
