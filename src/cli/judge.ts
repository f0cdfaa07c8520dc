import { Option } from 'commander';
import { DryholdError } from '../errors.ts';
import { leadSentences } from '../pages/lead-sentences.ts';
import type { JudgeOptions, JudgeResult } from '../steps/judge.ts';
import type { MergeResult } from '../steps/shard/merge-results.ts';
import { holdsStore } from '../store/catalogue-path.ts';
import { visibleText } from '../units/visible-text.ts';
import { type AddCommand, type CommonOptions, exitStatus, Progress, say, sayJson } from './context.ts';
import { folderName, folderNames } from './folder-name.ts';
import { countOf, grouped } from './ingest-text.ts';
import { mergeLines } from './merge-text.ts';
import { withStore } from './with-store.ts';

interface JudgeCommandOptions extends CommonOptions {
  readonly policy?: string;
  readonly failOn?: 'suspect' | 'fail';
  readonly new?: boolean;
  readonly shard?: string;
  readonly results?: string;
  readonly merge?: string[];
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
    .option(
      '--shard <folder>',
      'judge one shard by itself, without a store; what is found goes into --results',
      folderName,
    )
    .option(
      '--results <folder>',
      'with --shard: where what is found goes, a folder of its own for each shard',
      folderName,
    )
    .option(
      '--merge <folder...>',
      'take what was found of shards into the store, from all folders of results below these',
      folderNames,
    )
    .addHelpText(
      'after',
      `
examples:
  dryhold judge
  dryhold judge --policy pipelines/policies/ufgs-refrigerant-piping.json
  dryhold judge --fail-on fail --new        for a nightly run: each bad job raises the alarm once
  dryhold judge --shard shards/2026-03/0000001-0010000 --results judged/2026-03-1
  dryhold judge --merge judged`,
    )
    .action(async (options: JudgeCommandOptions) => {
      checkOptions(options);
      const { shard, results } = options;
      if (shard !== undefined && results !== undefined) return judgeOneShard(shard, results, options);
      const result = await judgeStore(options);
      const { now } = result;
      const inUnits = (job: (typeof now.first)[number]) => ({ ...job, text: job.text(options.units) });
      if (options.json) sayJson({ ...result, now: { ...now, first: now.first.map(inUnits) } });
      else await tell(result, options);
      const isLeft = 'changed' in result && result.changed + result.unknown > 0;
      settle(isLeft || isFound(result, options) ? exitStatus.refused : exitStatus.done);
    });
};

function checkOptions({ shard, results, merge, failOn, new: isNew = false }: JudgeCommandOptions): void {
  const problem = (): string | undefined => {
    if (isNew && failOn === undefined) return '--new narrows --fail-on; give that as well';
    if (shard !== undefined && merge !== undefined)
      return '--shard judges one shard, --merge takes what was found: give one';
    if (shard !== undefined && results === undefined)
      return '--shard wants a folder for what is found: --results FOLDER';
    if (shard === undefined && results !== undefined)
      return '--results is where what is found of a shard goes; give --shard';
    if (shard !== undefined && failOn !== undefined) return '--fail-on asks about a store; give it with --merge';
    return undefined;
  };
  const found = problem();
  if (found !== undefined) throw new DryholdError('bad-usage', { problem: found });
}

/** Judges a shard by itself. */
async function judgeOneShard(shard: string, results: string, options: JudgeCommandOptions): Promise<void> {
  const { judgeShard } = await import('../steps/shard/judge-shard.ts');
  const progress = new Progress('judging', options);
  const onProgress = (done: number, of: number) => progress.update(done, of, `${done} jobs`);
  const policy = await policyOf(options);
  const result = await judgeShard(shard, results, { ...policy, onProgress }).finally(() => progress.stop());
  if (options.json) return sayJson({ ...result, folder: results });
  say(`${results}: ${countOf(result.judged, 'job')} judged by policy ${result.policyId}`);
}

/** Judges what is new in a store, or takes in what was found of its shards. */
async function judgeStore(options: JudgeCommandOptions): Promise<JudgeResult | MergeResult> {
  const { merge, store } = options;
  // A mistyped name is no store to be made: there would be nothing in it to judge.
  if (!holdsStore(store)) throw new DryholdError('store-missing', { path: store });
  const [{ judge }, { mergeResults }] = await Promise.all([
    import('../steps/judge.ts'),
    import('../steps/shard/merge-results.ts'),
  ]);
  const progress = new Progress('judging', options);
  const how: JudgeOptions = {
    ...(await policyOf(options)),
    onProgress: (what, done, of) =>
      progress.update(done, of, what === 'jobs' ? `${done} jobs` : `${done} curves held beside those of other jobs`),
  };
  return withStore(options, 'write', (opened) =>
    merge === undefined ? judge(opened, how) : mergeResults(opened, merge, how),
  ).finally(() => progress.stop());
}

async function policyOf({ policy }: JudgeCommandOptions): Promise<Pick<JudgeOptions, 'policy'>> {
  if (policy === undefined) return {};
  const { readPolicy } = await import('../checks/policy.ts');
  return { policy: readPolicy(policy) };
}

async function tell(result: JudgeResult | MergeResult, options: JudgeCommandOptions): Promise<void> {
  const { units, store } = options;
  const { outcomes } = await import('../checks/check.ts');
  const { now, policyId } = result;
  if ('results' in result) for (const line of mergeLines(result, options)) say(visibleText(line));
  else say(`${countOf(result.judged, 'job')} judged by policy ${policyId}`);
  for (const { jobId, outcome, text } of now.first)
    say(visibleText(`${jobId} ${outcome}: ${leadSentences(text(units), mostLength)}`));
  const others = now.flagged - now.first.length;
  if (others > 0) say(`… and ${countOf(others, 'other')}; see them with: dryhold report --store ${store}`);
  if (result.matches > 0)
    say(
      `the same pressure curve stands in ${countOf(result.matches, 'pair')} of jobs: dryhold export curve_matches --store ${store}`,
    );
  say(
    `findings of all jobs: ${outcomes.map((outcome) => `${grouped(result.outcomes[outcome])} ${outcome.replace('-', ' ')}`).join(', ')}`,
  );
}

/** Whether there is what `--fail-on` asks about. */
function isFound({ now, outcomes }: JudgeResult, { failOn, new: isNew = false }: JudgeCommandOptions): boolean {
  if (failOn === undefined) return false;
  if (isNew) return (failOn === 'fail' ? now.failed : now.flagged) > 0;
  return outcomes.fail + (failOn === 'suspect' ? outcomes.suspect : 0) > 0;
}
