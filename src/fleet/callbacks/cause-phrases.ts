import {
  approvals,
  bareDenials,
  type CauseWords,
  causeWords,
  denialLinks,
  denials,
  rulings,
  smallWords,
} from './cause-words.ts';
import { PhraseList, type PhraseMatch, type TextWord, wordsOf } from './phrase-list.ts';

export type CausePhrase = PhraseMatch<CauseWords>;

const small = plainSet(smallWords);
const linking = plainSet(denialLinks);
const denying = plainSet(denials);
const denyingAtEnd = plainSet(bareDenials);

const phrases = new PhraseList(
  causeWords.flatMap((own) => own.phrases.map((phrase) => [phrase, own] as const)),
  saysLittle,
);
const ruling = new PhraseList(
  [...rulings.map((phrase) => [phrase, 'any'] as const), ...approvals.map((phrase) => [phrase, 'thing'] as const)],
  saysLittle,
);

/** Words that an approval clears; what is off, such as a low charge, is never "ok". */
const things: ReadonlySet<string> = new Set(['joint', 'leak', 'part', 'water', 'other']);

/**
 * The phrases of a text that tell of a cause: those that stand, and those that it denies.
 *
 * A denial reaches over small words alone, so that "no cooling due to a leak" denies the cooling and not the leak.
 */
export function causePhrases(words: readonly TextWord[]): { stands: CausePhrase[]; denied: CausePhrase[] } {
  const stands: CausePhrase[] = [];
  const denied: CausePhrase[] = [];
  let last: CausePhrase | undefined;
  for (const match of phrases.in(words)) {
    // "No cold air" is a symptom like "warm air".
    const isDenied =
      match.meaning.meaning !== 'symptom' &&
      (isDeniedBefore(words, match, last?.to ?? 0, last !== undefined && last === denied.at(-1)) ||
        isDeniedAfter(words, match));
    (isDenied ? denied : stands).push(match);
    last = match;
  }
  return { stands, denied };
}

/** Whether a denial stands before it, or what is denied goes on to it. */
function isDeniedBefore(
  words: readonly TextWord[],
  { from }: CausePhrase,
  lastTo: number,
  isLastDenied: boolean,
): boolean {
  const { clause } = words[from];
  let isLinked = false;
  let at = from - 1;
  for (; at >= lastTo && words[at].clause === clause; at -= 1) {
    const { plain } = words[at];
    if (denying.has(plain)) return true;
    if (linking.has(plain)) isLinked = true;
    else if (!saysLittle(plain)) return false;
  }
  return isLinked && isLastDenied && at === lastTo - 1 && words[at].clause === clause;
}

function isDeniedAfter(words: readonly TextWord[], { meaning: { meaning }, from, to }: CausePhrase): boolean {
  const { clause } = words[from];
  const isOver = (at: number): boolean => at >= words.length || words[at].clause !== clause;
  for (let at = to; !isOver(at); at += 1) {
    const ruled = ruling.at(words, at);
    if (ruled !== undefined && (ruled.meaning === 'any' || things.has(meaning))) return true;
    const { plain } = words[at];
    if (denyingAtEnd.has(plain) && isOver(at + 1)) return true;
    if (!saysLittle(plain)) return false;
  }
  return false;
}

/** Small words, and numbers but zero. */
function saysLittle(plain: string): boolean {
  return small.has(plain) || (/^\p{N}/u.test(plain) && /[^0.,]/.test(plain));
}

function plainSet(written: readonly string[]): ReadonlySet<string> {
  return new Set(written.flatMap((word) => wordsOf(word).map(({ plain }) => plain)));
}
