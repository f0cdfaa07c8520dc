import type { Callback } from '../../records/tables/callbacks.ts';
import { approvals, commissioningWords, denials, otherWords, partWords } from './cause-words.ts';

/** Whether the way a circuit was opened, dried, filled and closed probably caused a callback, something else did, or nobody can tell. */
export type CallbackCause = 'commissioning' | 'other' | 'unknown';

export interface CauseTold {
  readonly cause: CallbackCause;
  readonly by: 'cause-found' | 'refrigerant-added' | 'reason' | 'nothing';
  /** The words that told it; empty for none. */
  readonly words: string;
}

/** Longer texts are read so far. */
const mostCharacters = 4000;
/** A denial counts for so many words after it, an approval for so many before. */
const denialReach = 3;
const approvalReach = 2;

/**
 * What a callback was probably about. What was found goes before what was added, and that before what the customer said. A symptom, such
 * as "not cooling", tells nothing.
 *
 * Words are matched by their beginnings (`cause-words.ts`): common practice, no source; people write as they like.
 *
 * @example callbackCause({ cause_found: 'leak at a flare' }).cause // 'commissioning'
 * @example callbackCause({ reason: 'not cooling' }).cause // 'unknown'
 */
export function callbackCause({
  reason,
  cause_found: found,
  refrigerant_added_kg: addedKg,
}: Pick<Callback, 'reason' | 'cause_found' | 'refrigerant_added_kg'>): CauseTold {
  const byCause = toldBy(found);
  if (byCause !== undefined) return { ...byCause, by: 'cause-found' };
  if (addedKg !== undefined && addedKg > 0) return { cause: 'commissioning', by: 'refrigerant-added', words: '' };
  const byReason = toldBy(reason);
  if (byReason !== undefined) return { ...byReason, by: 'reason' };
  return { cause: 'unknown', by: 'nothing', words: '' };
}

function toldBy(text: string | undefined): Pick<CauseTold, 'cause' | 'words'> | undefined {
  const words = wordsOf(text ?? '');
  const ours = matches(words, commissioningWords).find((match) => !isDenied(words, match));
  const others = matches(words, otherWords);
  // Both at once: what was wrong with the circuit is what commissioning answers for.
  if (ours !== undefined) {
    const part = matches(words, partWords).at(0);
    const told = words.slice(ours.from, ours.to).join(' ');
    if (part === undefined) return { cause: 'commissioning', words: told };
    return { cause: 'unknown', words: `${told}, ${words.slice(part.from, part.to).join(' ')}` };
  }
  const [other] = others;
  return other === undefined ? undefined : { cause: 'other', words: words.slice(other.from, other.to).join(' ') };
}

interface Match {
  /** Places of its first word and of the word after its last. */
  readonly from: number;
  readonly to: number;
}

function wordsOf(text: string): string[] {
  return text
    .slice(0, mostCharacters)
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
}

/** Where any of the phrases stands, the first first. */
function matches(words: readonly string[], phrases: readonly string[]): Match[] {
  const found: Match[] = [];
  for (const phrase of phrases) {
    const parts = phrase.split(' ');
    for (let from = 0; from + parts.length <= words.length; from += 1)
      if (parts.every((part, at) => isWord(words[from + at], part, at === parts.length - 1)))
        found.push({ from, to: from + parts.length });
  }
  return found.sort((a, b) => a.from - b.from || b.to - a.to);
}

/** Only the last word of a phrase may go on. */
function isWord(word: string, part: string, isLast: boolean): boolean {
  if (part.endsWith('.')) return word === part.slice(0, -1);
  return isLast ? word.startsWith(part) : word === part;
}

function isDenied(words: readonly string[], { from, to }: Match): boolean {
  const before = matches(words.slice(Math.max(0, from - denialReach), from), denials);
  const after = matches(words.slice(to, to + approvalReach), approvals);
  return before.length > 0 || after.length > 0;
}
