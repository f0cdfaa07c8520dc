import { DryholdError } from '../errors.ts';
import { type AddCommand, type CommonOptions, Progress, say, sayJson } from './context.ts';
import { folderName } from './folder-name.ts';
import { countOf, grouped } from './ingest-text.ts';
import { wholeNumber } from './whole-number.ts';
import { withStore } from './with-store.ts';

interface ShardCommandOptions extends CommonOptions {
  readonly out: string;
  readonly jobsPerShard: number;
  readonly month?: string;
}

/** `dryhold shard`: readings and jobs as Parquet for other machines. */
export const addShard: AddCommand = (program) => {
  program
    .command('shard')
    .summary('lay jobs and readings out for other machines')
    .description(
      'Writes jobs with all that judging them takes as Parquet, a folder for each month and range of jobs. Each folder can be judged by itself, and is a bundle that ingest takes.',
    )
    .requiredOption('--out <folder>', 'where the folders go; shards that lie there are replaced', folderName)
    .option('--jobs-per-shard <n>', 'jobs of a month that lie in a folder together', wholeNumber, 10_000)
    .option('--month <month>', 'only the jobs that began in this month, such as 2026-03; undated: those without a day')
    .addHelpText(
      'after',
      `
examples:
  dryhold shard --out shards
  dryhold shard --out shards --month 2026-03
  dryhold shard --out shards --codes        technicians by code, free text left out`,
    )
    .action(async (options: ShardCommandOptions) => {
      const { month } = options;
      if (month !== undefined && !/^(\d{4}-(0[1-9]|1[0-2])|undated)$/.test(month))
        throw new DryholdError('bad-usage', {
          problem: `--month wants a month such as 2026-03, or undated; received "${month}"`,
        });
      const { shard } = await import('../steps/shard/shard.ts');
      const progress = new Progress('sharding', options);
      const result = await withStore(options, 'read', (store) =>
        shard(store, options.out, {
          jobsPerShard: options.jobsPerShard,
          ...(month === undefined ? {} : { month }),
          ...(options.codes === undefined ? {} : { codes: options.codes }),
          onProgress: (done, of) => progress.update(done, of, `${grouped(done)} jobs`),
        }),
      ).finally(() => progress.stop());
      if (options.json) return sayJson({ folder: options.out, ...result });
      say(
        `${options.out}: ${countOf(result.shards.length, 'shard')}, ${countOf(result.jobs, 'job')}, ${countOf(result.readings, 'reading')}`,
      );
    });
};
