import fc from 'fast-check';
import { expect, test } from 'vitest';
import { html } from '../../src/pages/html.ts';
import { labelText } from '../../src/steps/label-text.ts';
import { parseFragment } from 'parse5';

/** Of any characters, halves of some too. */
const anyText = fc.array(fc.integer({ min: 0, max: 0x10ffff })).map((codes) => String.fromCodePoint(...codes));

test('a label is on one line, and the same in a page as in its rows', () => {
  fc.assert(
    fc.property(
      fc.oneof(
        anyText,
        fc.string({ unit: fc.constantFrom(' ', '\n', '\r', '\t', '\u2028', '\u0007', '\u202e', '\ud800', 'a') }),
      ),
      (name) => {
        const label = labelText(name);
        expect(label).not.toMatch(/[\n\r\u2028\u2029]|^\s|\s$|\s\s/);
        expect(labelText(label)).toBe(label);
        // As a browser reads the option back.
        const [option] = parseFragment(html`<option value="${label}">${label}</option>`.source)
          .childNodes as unknown as { attrs: { value: string }[] }[];
        expect(option?.attrs[0]?.value).toBe(label);
      },
    ),
  );
});

test('plain names stay what they are', () => {
  for (const name of ['Ash', 'crew-birch', 'R-410A', "Cy O'Hare", '👩‍🔧', 'Ωμέγα', '名前'])
    expect(labelText(name)).toBe(name);
  expect(labelText(' two\tof\r\nfive\u2028lines ')).toBe('two of five lines');
});
