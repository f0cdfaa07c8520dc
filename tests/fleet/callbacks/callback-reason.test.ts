import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { callbackCause } from '../../../src/fleet/callbacks/callback-cause.ts';
import { causeWords } from '../../../src/fleet/callbacks/cause-words.ts';
import { Random } from '../../../src/numerics/random.ts';
import { drawCallback } from '../../../src/simulate/callback-risk.ts';

const found = (text: string) => callbackCause({ cause_found: text });
const said = (text: string) => callbackCause({ reason: text });

describe('what the customer said', () => {
  test.each([
    ['refrigerant leak', 'commissioning'],
    ['unit leaking refrigerant again', 'commissioning'],
    ['Kältemittel verloren', 'commissioning'],
    ['fuite de gaz', 'commissioning'],
    ['fuga de gas', 'commissioning'],
    ['water dripping indoors', 'other'],
    ['remote control dead', 'other'],
    ['Wasser tropft von der Decke', 'other'],
    ['Wärmepumpe macht Geräusche', 'other'],
    ['la télécommande ne répond pas', 'other'],
    ['gotea agua', 'other'],
    // Water, as often as not.
    ['leaking', 'unknown'],
    ['moisture', 'unknown'],
    // What they notice may have any cause, and what they name beside it need not be one.
    ['not cooling', 'unknown'],
    ['hissing noise', 'unknown'],
    ['fan runs but no cold air', 'unknown'],
    ['water dripping and ice on the pipe', 'unknown'],
    ['filter cleaned, still too warm', 'unknown'],
    ['Lüfter läuft, kühlt nicht', 'unknown'],
    ['le ventilateur tourne, pas de froid', 'unknown'],
    ['el ventilador anda pero no enfría', 'unknown'],
    ['needs gas', 'unknown'],
    ['overcharged on the bill', 'unknown'],
  ] as const)('%s: %s', (text, cause) => {
    expect(said(text)).toMatchObject({ cause, by: cause === 'unknown' ? 'nothing' : 'reason' });
  });
});

test('whatever the simulator has customers say and technicians find is told rightly', () => {
  const left = { jobId: 'job-1', systemId: 'system-1', day: 0 };
  const faults = [
    { leakPaPerS: 0, vapourPa: 0, deviationRatio: 0 },
    { leakPaPerS: 0.5, vapourPa: 0, deviationRatio: 0 },
    { leakPaPerS: 0, vapourPa: 600, deviationRatio: 0 },
    { leakPaPerS: 0, vapourPa: 0, deviationRatio: 0.3 },
    { leakPaPerS: 0, vapourPa: 0, deviationRatio: -0.3 },
  ];
  const phrases = new Set<string | undefined>();
  for (const fault of faults)
    for (let seed = 1; seed <= 1000; seed += 1) {
      const drawn = drawCallback(new Random(seed), { ...left, ...fault }, 2, true);
      if (drawn === undefined) continue;
      const { reason, cause_found } = drawn.row;
      phrases.add(reason).add(cause_found);
      expect(callbackCause(drawn.row)).toMatchObject({
        cause: drawn.needsRepair ? 'commissioning' : 'other',
        by: 'cause-found',
      });
      // Where nothing was found, only what plainly is something else shows.
      expect(callbackCause({ reason }).cause).toBe(drawn.needsRepair ? 'unknown' : 'other');
    }
  expect(phrases.size).toBe(17);
});

describe('any text', () => {
  const causeWord = fc.constantFrom(
    ...causeWords.flatMap(({ phrases }) => phrases.map((phrase) => phrase.replaceAll(/\|\S+|\*/g, ''))),
    'no',
    'not',
    'kein',
    'pas de',
    'sin',
    'or',
    'ok',
    'weißes',
    'Gerät',
    'l’été',
    ',',
    '.',
    '\n',
    '0',
    '0.5 kg',
    'the',
  );
  const anyCauseText = fc.array(causeWord, { maxLength: 12 }).map((words) => words.join(' '));
  const unmarked = (text: string): string => text.normalize('NFD').replaceAll(/\p{M}/gu, '');

  test('makes no throw, and what tells is in it', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), anyCauseText), fc.double(), (text, refrigerant_added_kg) => {
        const { by, words } = callbackCause({ cause_found: text, reason: text, refrigerant_added_kg });
        expect(['cause-found', 'refrigerant-added', 'reason', 'nothing']).toContain(by);
        for (const part of words.split(', ')) expect(text).toContain(part);
      }),
      { seed: 31, numRuns: 2000 },
    );
  });

  test('is told alike in capitals and small letters, with accents and without, composed or not', () => {
    fc.assert(
      fc.property(anyCauseText, fc.infiniteStream(fc.boolean()), (text, coins) => {
        const accented = text.replaceAll(/[aeiou]/g, (vowel) => (coins.next().value ? `${vowel}\u0301` : vowel));
        for (const tell of [found, said]) {
          const { cause, by } = tell(text);
          const others = [text.toUpperCase(), text.toLowerCase(), unmarked(text), accented, accented.normalize('NFC')];
          for (const other of others) expect(tell(other)).toMatchObject({ cause, by });
        }
      }),
      { seed: 32, numRuns: 2000 },
    );
  });

  // None takes more than 0.1 s; what grew with the square of the length would take minutes.
  test.each([
    ['small words', 'no the of '],
    ['denials', 'no leak or '],
    ['beginnings of phrases', 'charge was found a bit too '],
    ['one word', 'leak'],
    ['accents', '\u0301\u0323'],
    ['signs', '.,'],
    ['white space', ' \n'],
  ])('of 100 000 characters is quickly told: %s', (_, part) => {
    const text = part.repeat(Math.ceil(100_000 / part.length));
    const started = performance.now();
    found(text);
    expect(performance.now() - started).toBeLessThan(1500);
    expect(found(`${text}. flare leaking`).cause).toBe('commissioning');
  });
});
