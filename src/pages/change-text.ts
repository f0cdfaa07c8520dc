import { dayText, monthText } from './day-text.ts';
import type { DatedChange, TrainingReport } from './fleet-data.ts';
import { namedId } from './named-id.ts';
import { groupedCount, percentText } from './share-text.ts';
import { unitText } from './standing-out-text.ts';

const chartWords: Readonly<Record<DatedChange['chart'], string>> = {
  'cumulative-sum': 'the running sum',
  'moving-average': 'the moving average',
  month: 'the month',
};

/** A change of one unit in one skill, and all that tells it. */
export interface JoinedChange {
  readonly first: DatedChange;
  readonly all: readonly DatedChange[];
}

/** Signals further apart are told as changes of their own [days]. */
const farApartDays = 365;
const dayMs = 86_400_000;

/** Changes joined where signals of one unit, skill and direction follow each other with none to the other side between; the latest first. */
export function joinedChanges(changes: readonly DatedChange[]): JoinedChange[] {
  const joined: { first: DatedChange; all: DatedChange[] }[] = [];
  const latest = new Map<string, (typeof joined)[number]>();
  for (const change of changes) {
    const key = JSON.stringify([change.unit.kind, change.unit.id, change.skill.id]);
    const before = latest.get(key);
    const last = before?.all.at(-1);
    const isSame =
      last !== undefined &&
      last.direction === change.direction &&
      (Date.parse(change.day) - Date.parse(last.day)) / dayMs <= farApartDays;
    if (before !== undefined && isSame) before.all.push(change);
    else {
      const begun = { first: change, all: [change] };
      joined.push(begun);
      latest.set(key, begun);
    }
  }
  const last = ({ all }: JoinedChange): string => all.at(-1)?.day ?? '';
  return joined.reverse().sort((a, b) => last(b).localeCompare(last(a)));
}

/** Of many changes those that most charts tell, of these the latest; the latest first. */
export function surest(changes: readonly JoinedChange[], count: number): JoinedChange[] {
  const charts = ({ all }: JoinedChange): number => new Set(all.map(({ chart }) => chart)).size;
  const kept = new Set(changes.toSorted((a, b) => charts(b) - charts(a)).slice(0, count));
  return changes.filter((change) => kept.has(change));
}

/** What changed, since when, and by which job it was told. */
export function changeText({ first, all }: JoinedChange): string {
  const charts = [...new Set(all.map(({ chart }) => chartWords[chart]))];
  const who = first.unit.kind === 'fleet' ? 'The whole fleet' : unitText(first.unit);
  if (all.every(({ chart }) => chart === 'month'))
    return `${who}, ${first.skill.title}: ${first.direction} in ${monthsText(all)} than was to be expected.`;
  const others = charts.length === 1 ? '' : `, later ${charts.slice(1).join(' and ')} too`;
  return `${who}, ${first.skill.title}: ${first.direction} since about ${dayText(first.sinceDay)}; told on ${dayText(first.day)}, with ${namedId('job', first.jobId)}, by ${charts[0]}${others}.`;
}

/** The months that signalled, such as "Mar 2026 and May 2026". */
function monthsText(all: readonly DatedChange[]): string {
  return [...new Set(all.map(({ day }) => monthText(day.slice(0, 7))))].join(' and ');
}

const verdictWords = {
  better: 'better than was to be expected from before',
  worse: 'worse than was to be expected from before',
  'no-change-shown': 'no change shown',
  'too-few': 'too few jobs for a verdict: ten a side are needed',
} as const;

/** What came after a training, beside what was to be expected from before. */
export function trainingText({ technician, day, topic, skill, effect }: TrainingReport): string {
  const what = `${technician.name}, ${dayText(day)}, ${topic === '' ? 'no topic' : topic}`;
  if (skill === null) return `${what}: no skill or check of ours, nothing to hold it against.`;
  const side = ({ found, jobs }: { readonly found: number; readonly jobs: number }): string =>
    `${groupedCount(found)} of ${groupedCount(jobs)}`;
  const about = skill.id === topic ? '' : ` (${skill.title})`;
  if (effect === null) return `${what}${about}: no job of theirs is on record, nothing to hold it against.`;
  const counts = `${what}${about}: flagged before ${side(effect.before)}, after ${side(effect.after)}`;
  if (effect.verdict === 'too-few') return `${counts}; ${verdictWords['too-few']}.`;
  const { low, mid, high } = effect.oddsRatio;
  return `${counts}, where ${percentText(effect.baseline)} were to be expected from before; odds × ${figure(mid)} (${figure(low)}–${figure(high)}): ${verdictWords[effect.verdict]}${effect.verdict === 'no-change-shown' && high / low > wide ? ', and so few jobs can hardly show one' : ''}.`;
}

/** An interval of odds as wide as this says nearly nothing: halved and doubled odds are both in it. */
const wide = 4;

function figure(value: number): string {
  return value < 10 ? value.toPrecision(2) : String(Math.round(value));
}
