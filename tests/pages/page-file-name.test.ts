import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pageFileName } from '../../src/pages/page-file-name.ts';

/** Of any characters, halves of some too. */
const anyText = fc.array(fc.integer({ min: 0, max: 0x10ffff })).map((codes) => String.fromCodePoint(...codes));

test('plain ids stay what they are', () => {
  for (const id of ['job-0042', '2026-03-16', 'a', 'x'.repeat(60)]) expect(pageFileName(id)).toBe(`${id}.html`);
});

test('whatever an id holds, the name is plain, short, and no device of any system', () => {
  fc.assert(
    fc.property(fc.oneof(anyText, fc.string(), fc.constantFrom('con', 'COM1', '..', '', '/etc')), (id) => {
      const name = pageFileName(id);
      expect(name).toMatch(/^[a-z0-9](?:[a-z0-9-]{0,79})\.html$/);
      expect(name).not.toMatch(/^(?:con|prn|aux|nul|com\d|lpt\d)\.html$/);
    }),
  );
});

test('no two ids share a file, nor where capitals count as small letters', () => {
  const id = fc.oneof(
    fc.string({ unit: fc.constantFrom('a', 'A', '-', '_', ' ', 'é', '1'), maxLength: 8 }),
    fc.string({ unit: fc.constantFrom('b', 'B'), minLength: 58, maxLength: 64 }),
  );
  fc.assert(
    fc.property(id, id, (one, other) => {
      fc.pre(one !== other);
      expect(pageFileName(one).toLowerCase()).not.toBe(pageFileName(other).toLowerCase());
    }),
    { numRuns: 2000 },
  );
});

test('an id that is the name of another’s page does not take it', () => {
  for (const id of ['Job 7', 'JOB-7', '...', 'con', 'é', 'y'.repeat(70)]) {
    const taken = pageFileName(id).replace('.html', '');
    expect(pageFileName(taken)).not.toBe(pageFileName(id));
    // Nor the one that would be given to that.
    expect(pageFileName(pageFileName(taken).replace('.html', ''))).not.toBe(pageFileName(taken));
  }
});
