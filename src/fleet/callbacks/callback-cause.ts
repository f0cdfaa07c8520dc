import type { Callback } from '../../records/tables/callbacks.ts';
import { type CausePhrase, causePhrases } from './cause-phrases.ts';
import type { WordMeaning } from './cause-words.ts';
import { wordsOf } from './phrase-list.ts';

/** Whose a callback probably is: the commissioning's, something else's, or nobody can tell. */
export type CallbackCause = 'commissioning' | 'other' | 'unknown';

export interface CauseTold {
  readonly cause: CallbackCause;
  /** By what it was told. */
  readonly by: 'cause-found' | 'refrigerant-added' | 'reason' | 'nothing';
  /** The words that told it, as they stand in the text; empty for none. */
  readonly words: string;
}

/** What is on record of a callback; a store gives null for nothing. */
type OnRecord = { readonly [Column in 'reason' | 'cause_found' | 'refrigerant_added_kg']?: Callback[Column] | null };

/**
 * What a callback was probably about: the way the refrigerant circuit was made, dried, filled and closed, or something else.
 *
 * What was found goes before what was added, and that before what the customer said. Of several causes that of the circuit counts. A
 * symptom, such as "not cooling", tells nothing, and neither does a leak of a part that may fail by itself.
 *
 * Source: common practice; the words are in `cause-words.ts`. Accuracy: not measured, people write as they like.
 *
 * @example callbackCause({ cause_found: 'Leak at a flare' }) // { cause: 'commissioning', by: 'cause-found', words: 'Leak' }
 * @example callbackCause({ reason: 'not cooling' }).cause // 'unknown'
 */
export function callbackCause({ reason, cause_found: found, refrigerant_added_kg: addedKg }: OnRecord): CauseTold {
  const byFound = told(found ?? '', 'found');
  if (byFound.cause !== undefined) return { cause: byFound.cause, by: 'cause-found', words: byFound.words };
  if ((addedKg ?? 0) > 0) return { cause: 'commissioning', by: 'refrigerant-added', words: '' };
  const byReason = told(reason ?? '', 'said');
  // Who looked for a leak and found none knows better than who rang about one.
  const isRefuted = byReason.cause === 'commissioning' && byFound.isCleared;
  if (byReason.cause === undefined || isRefuted) return { cause: 'unknown', by: 'nothing', words: '' };
  return { cause: byReason.cause, by: 'reason', words: byReason.words };
}

interface Told {
  /** Undefined where the text tells nothing. */
  readonly cause: CallbackCause | undefined;
  readonly words: string;
  /** Whether it denies something of the circuit. */
  readonly isCleared: boolean;
}

const ours: ReadonlySet<string> = new Set(['certain', 'joint', 'likely', 'leak', 'cleared']);

function told(text: string, by: 'found' | 'said'): Told {
  const words = wordsOf(text);
  const { stands, denied } = causePhrases(words);
  const read = by === 'found' ? stands : stands.filter(({ meaning }) => meaning.isSaid);
  const [cause, ...telling] = weighed(
    (...meanings) => read.find(({ meaning: { meaning } }) => meanings.includes(meaning)),
    by,
  );
  return {
    cause,
    words: telling.map(({ from, to }) => text.slice(words[from].start, words[to - 1].end)).join(', '),
    isCleared: [...denied, ...stands.filter(({ meaning }) => meaning.meaning === 'cleared')].some(({ meaning }) =>
      ours.has(meaning.meaning),
    ),
  };
}

/** What the words of a text come to, and those that decide. */
function weighed(
  first: (...meanings: WordMeaning[]) => CausePhrase | undefined,
  by: 'found' | 'said',
): [CallbackCause | undefined, ...CausePhrase[]] {
  const certain = first('certain');
  if (certain !== undefined) return ['commissioning', certain];
  const [joint, likely, leak] = [first('joint'), first('likely'), first('leak')];
  const [part, wear, damage] = [first('part'), first('wear'), first('damage')];
  if (joint !== undefined) return wear === undefined ? ['commissioning', leak ?? joint] : ['unknown', joint, wear];
  const water = likely === undefined && leak !== undefined ? first('water') : undefined;
  const loss = likely ?? leak;
  if (loss !== undefined && water === undefined) {
    if (damage !== undefined) return ['other', loss, damage];
    const itself = part ?? wear;
    return itself === undefined ? ['commissioning', loss] : ['unknown', loss, itself];
  }
  const other = water ?? first('damage', 'water', 'other');
  // Lost refrigerant too makes a fan run in vain and ice melt: customers tell what they see.
  if (other !== undefined && (by === 'found' || first('symptom') === undefined)) return ['other', other];
  const itself = part ?? wear;
  return itself === undefined ? [undefined] : ['unknown', itself];
}
