import { type AddCommand, type CommonOptions, Progress, say, sayJson } from './context.ts';
import { folderName } from './folder-name.ts';
import { countOf } from './ingest-text.ts';
import { wholeNumber } from './whole-number.ts';

interface SimulateCommandOptions extends CommonOptions {
  readonly jobs: number;
  readonly seed: number;
  readonly out: string;
  readonly mishaps?: boolean;
}

/** `dryhold simulate`: a bundle with known truth. */
export const addSimulate: AddCommand = (program) => {
  program
    .command('simulate')
    .summary('make a bundle with known truth')
    .description(
      'Simulates a year of an invented shop and writes it as a bundle, with the truth of all that is in it beside it.',
    )
    .requiredOption('--jobs <n>', 'how many jobs', wholeNumber)
    .option('--seed <s>', 'the same seed gives the same bundle', wholeNumber, 1)
    .requiredOption('--out <folder>', 'where the bundle goes', folderName)
    .option('--mishaps', 'with logs that are copied, spoilt, or shaped by what no model knows')
    .addHelpText(
      'after',
      `
examples:
  dryhold simulate --jobs 400 --seed 1 --out fleet
  dryhold simulate --jobs 400 --seed 1 --mishaps --out mishaps`,
    )
    .action(async (options: SimulateCommandOptions) => {
      const { simulateFleet } = await import('../simulate/fleet.ts');
      const { writeSimulated } = await import('./simulated-bundle.ts');
      const progress = new Progress('simulating', options);
      const written = await writeSimulated(
        simulateFleet({ jobs: options.jobs, seed: options.seed, mishaps: options.mishaps === true }),
        options.out,
        (jobs) => progress.update(jobs, options.jobs, `${jobs} jobs`),
      ).finally(() => progress.stop());
      if (options.json) sayJson({ ...written, folder: options.out });
      else say(`${options.out}: ${countOf(written.jobs, 'job')}, ${countOf(written.readings, 'reading')}`);
    });
};
