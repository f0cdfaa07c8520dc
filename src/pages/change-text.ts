import type { DatedChange, TrainingReport } from './fleet-data.ts';
import { namedId } from './named-id.ts';
import { groupedCount, percentText } from './share-text.ts';
import { unitText } from './standing-out-text.ts';

const chartWords: Readonly<Record<DatedChange['chart'], string>> = {
  'cumulative-sum': 'the running sum',
  'moving-average': 'the moving average',
  month: 'the month',
};

/** Changes of one unit in one skill in one direction: what several charts say alike. */
export interface JoinedChange {
  readonly first: DatedChange;
  readonly all: readonly DatedChange[];
}

/**
 * Changes joined by unit, skill and direction, the latest signal first.
 *
 * @param changes in the order of their signals
 */
export function joinedChanges(changes: readonly DatedChange[]): JoinedChange[] {
  const by = new Map<string, DatedChange[]>();
  for (const change of changes) {
    const key = JSON.stringify([change.unit.kind, change.unit.id, change.skill.id, change.direction]);
    by.set(key, [...(by.get(key) ?? []), change]);
  }
  return Array.from(by.values(), (all) => ({ first: all[0], all })).reverse();
}

/** What changed, since when, and by which job it was told. */
export function changeText({ first, all }: JoinedChange): string {
  const charts = [...new Set(all.map(({ chart }) => chartWords[chart]))];
  const who = first.unit.kind === 'fleet' ? 'The whole fleet' : unitText(first.unit);
  const others = charts.length === 1 ? '' : `, later ${charts.slice(1).join(' and ')} too`;
  return `${who}, ${first.skill.title}: ${first.direction} since about ${first.sinceDay}; told on ${first.day}, with ${namedId('job', first.jobId)}, by ${charts[0]}${others}.`;
}

const verdictWords = {
  better: 'better than without it',
  worse: 'worse than without it',
  'no-change-shown': 'no change shown',
  'too-few': 'too few jobs for a verdict: ten a side are needed',
} as const;

/** What a training did, beside what would have come without it. */
export function trainingText({ technician, day, topic, skill, effect }: TrainingReport): string {
  const what = `${technician.name}, ${day}, ${topic === '' ? 'no topic' : topic}`;
  if (skill === null) return `${what}: no skill or check of ours, nothing to hold it against.`;
  const side = ({ found, jobs }: { readonly found: number; readonly jobs: number }): string =>
    `${groupedCount(found)} of ${groupedCount(jobs)}`;
  const about = skill.id === topic ? '' : ` (${skill.title})`;
  if (effect === null) return `${what}${about}: no job of theirs is on record, nothing to hold it against.`;
  const counts = `${what}${about}: flagged before ${side(effect.before)}, after ${side(effect.after)}`;
  if (effect.verdict === 'too-few') return `${counts}; ${verdictWords['too-few']}.`;
  const { low, mid, high } = effect.oddsRatio;
  return `${counts}, where ${percentText(effect.baseline)} were to be expected without it; odds × ${figure(mid)} (${figure(low)}–${figure(high)}): ${verdictWords[effect.verdict]}.`;
}

function figure(value: number): string {
  return value < 10 ? value.toPrecision(2) : String(Math.round(value));
}
