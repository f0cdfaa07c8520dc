/** A word of a text. */
export interface TextWord {
  /** As phrases write words: small letters, no accents. */
  readonly plain: string;
  /** Where it stands in the text, and the place after it. */
  readonly start: number;
  readonly end: number;
  /** Counts what full stops, commas and their like part. */
  readonly clause: number;
}

/** A phrase in a text: what it means, its first word and the word after its last. */
export interface PhraseMatch<Meaning> {
  readonly meaning: Meaning;
  readonly from: number;
  readonly to: number;
}

/** So many words that say little may stand in a gap. */
const widestGap = 4;

/**
 * The words of a text, in its order. A number is one word.
 *
 * @example wordsOf('Fuite, 0.4 kg').map(({ plain }) => plain) // ['fuite', '0.4', 'kg']
 */
export function wordsOf(text: string): TextWord[] {
  const words: TextWord[] = [];
  let clause = 0;
  let last = 0;
  for (const { 0: word, index: start } of text.matchAll(/\p{N}+(?:[.,]\p{N}+)*|[\p{L}\p{M}]+/gu)) {
    if (/[.,;!。，、；！]/.test(text.slice(last, start))) clause += 1;
    last = start + word.length;
    words.push({ plain: plainWord(word), start, end: last, clause });
  }
  return words;
}

/** Umlauts written with an "e" become the same letters as those that lost their dots. */
function plainWord(word: string): string {
  return (
    word
      // Marks go before the letters are parted, which would sort a long run of them slowly.
      .replaceAll(/\p{M}+/gu, '')
      .toUpperCase()
      .normalize('NFKD')
      .replaceAll(/\p{M}+/gu, '')
      .toLowerCase()
      .replaceAll(/([aou])e/g, '$1')
  );
}

interface Written {
  readonly text: string;
  readonly mayGoOn: boolean;
}

interface Phrase<Meaning> {
  readonly meaning: Meaning;
  /** Each place's choices; 'gap' between places. */
  readonly places: readonly (readonly Written[] | 'gap')[];
}

/**
 * Phrases to be found in texts of any length: a phrase is looked for only where a word begins as its first word does.
 *
 * A phrase is words after each other within one clause. `leak|leaks` is either, `undicht*` goes on in any way, and `..` is a gap of at
 * most four words that say little. A first word has two letters at least.
 */
export class PhraseList<Meaning> {
  readonly #byStart = new Map<string, Phrase<Meaning>[]>();
  readonly #saysLittle: (plain: string) => boolean;

  /** @param saysLittle whether a word may stand in a gap */
  constructor(written: Iterable<readonly [string, Meaning]>, saysLittle: (plain: string) => boolean) {
    this.#saysLittle = saysLittle;
    for (const [phrase, meaning] of written) {
      const places = phrase.split(' ').map((place) => (place === '..' ? 'gap' : place.split('|').map(writtenWord)));
      this.#add({ meaning, places });
    }
  }

  #add(phrase: Phrase<Meaning>): void {
    const [first] = phrase.places;
    if (first === 'gap') throw new RangeError('a phrase begins with a word');
    for (const key of new Set(first.map(({ text }) => startOf(text)))) {
      const own = this.#byStart.get(key);
      if (own === undefined) this.#byStart.set(key, [phrase]);
      else own.push(phrase);
    }
  }

  /** The phrases of a text, none over another: the first first, and of those that begin at one word the longest. */
  in(words: readonly TextWord[]): PhraseMatch<Meaning>[] {
    const found: PhraseMatch<Meaning>[] = [];
    for (let from = 0; from < words.length; from += 1) {
      const match = this.at(words, from);
      if (match === undefined) continue;
      found.push(match);
      from = match.to - 1;
    }
    return found;
  }

  /** The longest phrase that begins at a word. */
  at(words: readonly TextWord[], from: number): PhraseMatch<Meaning> | undefined {
    let best: PhraseMatch<Meaning> | undefined;
    let bestLetters = 0;
    for (const { meaning, places } of this.#byStart.get(startOf(words[from].plain)) ?? []) {
      const { to, letters } = this.#end(words, from, places);
      const isLonger = to > (best?.to ?? from) || (to === best?.to && letters > bestLetters);
      if (!isLonger) continue;
      best = { meaning, from, to };
      bestLetters = letters;
    }
    return best;
  }

  /** The word after a phrase and the letters it has in common with the text; its first word where it does not stand there. */
  #end(words: readonly TextWord[], from: number, places: Phrase<Meaning>['places']): { to: number; letters: number } {
    const { clause } = words[from];
    let to = from;
    let letters = 0;
    let gap = 0;
    for (const place of places) {
      if (place === 'gap') {
        gap = widestGap;
        continue;
      }
      let written: Written | undefined;
      for (; to < words.length && words[to].clause === clause; to += 1) {
        const { plain } = words[to];
        written = place.find((one) => isWritten(plain, one));
        if (written !== undefined || gap === 0 || !this.#saysLittle(plain)) break;
        gap -= 1;
      }
      if (written === undefined) return { to: from, letters: 0 };
      to += 1;
      gap = 0;
      letters += written.text.length;
    }
    return { to, letters };
  }
}

function startOf(plain: string): string {
  return plain.slice(0, 2);
}

function writtenWord(word: string): Written {
  return { text: plainWord(word.replace('*', '')), mayGoOn: word.endsWith('*') };
}

function isWritten(plain: string, { text, mayGoOn }: Written): boolean {
  return mayGoOn ? plain.startsWith(text) : plain === text;
}
