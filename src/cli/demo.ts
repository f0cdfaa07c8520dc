import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { simulateFleet } from '../simulate/fleet.ts';
import { writeBundle } from '../simulate/write-bundle.ts';
import { ingest } from '../steps/ingest.ts';
import { judge } from '../steps/judge.ts';
import { report } from '../steps/report.ts';
import { type AddCommand, type CommonOptions, Progress, say, sayJson } from './context.ts';
import { grouped } from './ingest.ts';
import { withStore } from './with-store.ts';

/** Jobs of the demo's year. */
const demoJobs = 400;

/** `dryhold demo`: the whole way on an invented shop; the last line is the path of the start page. */
export const addDemo: AddCommand = (program) => {
  program
    .command('demo')
    .summary('the whole way on an invented shop')
    .description(
      'Simulates a year of an invented shop, takes it in, judges it, and reports. The last line is the path of the start page.',
    )
    .option('--out <folder>', 'where bundle, store and pages go; they are made anew', './dryhold-demo')
    .addHelpText('after', '\nexamples:\n  dryhold demo\n  dryhold demo --out somewhere --units si')
    .action(async (options: CommonOptions & { out: string }) => {
      const { units, codes = false } = options;
      const [bundle, folder, pages] = ['bundle', 'store', 'report'].map((name) => join(options.out, name));
      for (const made of [bundle, folder, pages]) rmSync(made, { recursive: true, force: true });
      const progress = new Progress('simulating', options);
      const written = await writeBundle(simulateFleet({ jobs: demoJobs, seed: 1 }), bundle, (jobs) =>
        progress.update(jobs, demoJobs),
      ).finally(() => progress.stop());
      const { judged, page } = await withStore(folder, 'write', async (store) => {
        await ingest(store, [bundle]);
        const result = await judge(store);
        return { judged: result, page: await report(store, pages, { units, codes }) };
      });
      if (options.json) {
        sayJson({
          bundle,
          store: folder,
          page,
          jobs: written.jobs,
          readings: written.readings,
          outcomes: judged.outcomes,
        });
        return;
      }
      say(
        `An invented shop: ${grouped(written.jobs)} jobs of a year with ${grouped(written.readings)} readings, simulated into ${bundle}`,
      );
      say(
        `Judged into ${folder}: ${grouped(judged.outcomes.fail)} findings fail, ${grouped(judged.outcomes.suspect)} are suspect`,
      );
      say(`Look at one job with: dryhold show J-0001 --store ${folder}`);
      say("Open the service manager's page:");
      say(page);
    });
};
