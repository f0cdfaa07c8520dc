import { Option } from 'commander';
import { type AddCommand, type CommonOptions, exitStatus, Progress, say, sayJson } from './context.ts';
import { countOf, grouped } from './ingest-text.ts';
import { withStore } from './with-store.ts';

interface JudgeCommandOptions extends CommonOptions {
  readonly policy?: string;
  readonly failOn?: 'suspect' | 'fail';
}

/** `dryhold judge`: facts and findings for every job that needs them. */
export const addJudge: AddCommand = (program, settle) => {
  program
    .command('judge')
    .summary('make facts and findings')
    .description(
      'Measures and judges every job that is new or changed. Without --policy, by the targets and limits that the job records, common practice elsewhere.',
    )
    .option('--policy <file>', 'a policy file: limits with their sources')
    .addOption(
      new Option('--fail-on <outcome>', 'exit with 1 where there is such a finding').choices(['suspect', 'fail']),
    )
    .addHelpText(
      'after',
      `
examples:
  dryhold judge
  dryhold judge --policy pipelines/policies/ufgs-refrigerant-piping.json
  dryhold judge --fail-on fail --quiet      for a nightly run`,
    )
    .action(async (options: JudgeCommandOptions) => {
      const [{ outcomes }, { readPolicy }, { judge }] = await Promise.all([
        import('../checks/check.ts'),
        import('../checks/policy.ts'),
        import('../steps/judge.ts'),
      ]);
      const policy = options.policy === undefined ? undefined : readPolicy(options.policy);
      const progress = new Progress('judging', options);
      const result = await withStore(options.store, 'write', (store) =>
        judge(store, {
          ...(policy === undefined ? {} : { policy }),
          onProgress: (what, done, of) =>
            progress.update(
              done,
              of,
              what === 'jobs' ? `${done} jobs` : `${done} curves held beside those of other jobs`,
            ),
        }),
      ).finally(() => progress.stop());
      if (options.json) sayJson(result);
      else {
        say(`${countOf(result.judged, 'job')} judged by policy ${result.policyId}`);
        if (result.matches > 0)
          say(
            `the same pressure curve stands in ${countOf(result.matches, 'pair')} of jobs: dryhold export curve_matches`,
          );
        say(
          `findings of all jobs: ${outcomes.map((outcome) => `${grouped(result.outcomes[outcome])} ${outcome.replace('-', ' ')}`).join(', ')}`,
        );
      }
      const found = result.outcomes.fail + (options.failOn === 'suspect' ? result.outcomes.suspect : 0);
      settle(options.failOn !== undefined && found > 0 ? exitStatus.refused : exitStatus.done);
    });
};
