import { Option } from 'commander';
import { DryholdError } from '../errors.ts';
import { leadSentences } from '../pages/lead-sentences.ts';
import type { JudgeResult } from '../steps/judge.ts';
import { visibleText } from '../units/visible-text.ts';
import { type AddCommand, type CommonOptions, exitStatus, Progress, say, sayJson } from './context.ts';
import { countOf, grouped } from './ingest-text.ts';
import { withStore } from './with-store.ts';

interface JudgeCommandOptions extends CommonOptions {
  readonly policy?: string;
  readonly failOn?: 'suspect' | 'fail';
  readonly new?: boolean;
}

/** So much of a finding is said here; its page says it all. */
const mostLength = 160;

/** `dryhold judge`: facts and findings for every job that needs them. */
export const addJudge: AddCommand = (program, settle) => {
  program
    .command('judge')
    .summary('judge every job that is new or changed')
    .description(
      'Measures and judges every job that is new or changed. Without --policy, by the targets and limits that the job records, common practice elsewhere.',
    )
    .option('--policy <file>', 'a policy file: limits with their sources')
    .addOption(
      new Option('--fail-on <outcome>', 'exit with 1 where there is such a finding').choices(['suspect', 'fail']),
    )
    .option('--new', 'with --fail-on: only on the jobs judged now, not on those judged before')
    .addHelpText(
      'after',
      `
examples:
  dryhold judge
  dryhold judge --policy pipelines/policies/ufgs-refrigerant-piping.json
  dryhold judge --fail-on fail --new        for a nightly run: each bad job raises the alarm once`,
    )
    .action(async (options: JudgeCommandOptions) => {
      if (options.new && options.failOn === undefined)
        throw new DryholdError('bad-usage', { problem: '--new narrows --fail-on; give that as well' });
      const [{ outcomes }, { readPolicy }, { judge }] = await Promise.all([
        import('../checks/check.ts'),
        import('../checks/policy.ts'),
        import('../steps/judge.ts'),
      ]);
      const policy = options.policy === undefined ? undefined : readPolicy(options.policy);
      const progress = new Progress('judging', options);
      const result = await withStore(options, 'write', (store) =>
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
      const { now } = result;
      const inUnits = (job: (typeof now.first)[number]) => ({ ...job, text: job.text(options.units) });
      if (options.json) sayJson({ ...result, now: { ...now, first: now.first.map(inUnits) } });
      else {
        say(`${countOf(result.judged, 'job')} judged by policy ${result.policyId}`);
        for (const { jobId, outcome, text } of now.first.map(inUnits))
          say(visibleText(`${jobId} ${outcome}: ${leadSentences(text, mostLength)}`));
        const others = now.flagged - now.first.length;
        if (others > 0)
          say(`… and ${countOf(others, 'other')}; see them with: dryhold report --store ${options.store}`);
        if (result.matches > 0)
          say(
            `the same pressure curve stands in ${countOf(result.matches, 'pair')} of jobs: dryhold export curve_matches`,
          );
        say(
          `findings of all jobs: ${outcomes.map((outcome) => `${grouped(result.outcomes[outcome])} ${outcome.replace('-', ' ')}`).join(', ')}`,
        );
      }
      settle(isFound(result, options) ? exitStatus.refused : exitStatus.done);
    });
};

/** Whether there is what `--fail-on` asks about. */
function isFound({ now, outcomes }: JudgeResult, { failOn, new: isNew = false }: JudgeCommandOptions): boolean {
  if (failOn === undefined) return false;
  if (isNew) return (failOn === 'fail' ? now.failed : now.flagged) > 0;
  return outcomes.fail + (failOn === 'suspect' ? outcomes.suspect : 0) > 0;
}
