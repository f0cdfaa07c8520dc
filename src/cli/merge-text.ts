import type { MergeResult } from '../steps/shard/merge-results.ts';
import { countOf } from './ingest-text.ts';
import { shellWord } from './shell-word.ts';

/** What is told of a merging. */
type MergeCounts = Pick<
  MergeResult,
  'results' | 'judged' | 'upToDate' | 'changed' | 'apart' | 'unknown' | 'unjudged' | 'policyId'
>;

/** Says what a merging took, what it left, and what is still to be done, a line each. */
export function mergeLines(
  { results, judged, upToDate, changed, apart, unknown, unjudged, policyId }: MergeCounts,
  options: { store: string; policy?: string },
): string[] {
  const already = upToDate - judged;
  const all = judged + changed + unknown > 0 ? '' : 'all ';
  const [was, is, it] = changed === 1 ? ['its', 'is', 'it'] : ['their', 'are', 'them'];
  return [
    `${countOf(judged, 'job')} taken from ${countOf(results, 'folder')} of results, by policy ${policyId}`,
    ...(already > 0 ? [`the store has what was found of ${all}${countOf(already, 'job')} already`] : []),
    ...(changed > 0
      ? [
          `${countOf(changed, 'job')} changed since ${was} shard was written, and ${is} left: what was found of ${it} is out of date`,
        ]
      : []),
    ...apart.map(
      (folder) => `${folder}: none of its jobs is as the store has it; if they did not change, it is of another store`,
    ),
    ...(unknown > 0 ? [`${countOf(unknown, 'job')} left that the store does not have`] : []),
    ...(unjudged > 0 ? [unjudgedLine(unjudged, options)] : []),
  ];
}

function unjudgedLine(jobs: number, { store, policy }: { store: string; policy?: string }): string {
  const by = policy === undefined ? '' : ` --policy ${shellWord(policy)}`;
  const [is, it] = jobs === 1 ? ['is', 'it'] : ['are', 'them'];
  return `${countOf(jobs, 'job')} of the store ${is} not judged yet: judge ${it} with: dryhold judge --store ${shellWord(store)}${by}`;
}
