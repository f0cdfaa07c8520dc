import fc from 'fast-check';
import { type DefaultTreeAdapterTypes as Tree, defaultTreeAdapter as tree, parseFragment } from 'parse5';
import { expect, test } from 'vitest';
import { Html, html } from '../../src/pages/html.ts';
import { otherPrefix, wovenUnits } from '../../src/pages/woven-units.ts';

const woven = (ip: string, si: string, change?: (text: string) => string) =>
  wovenUnits({ units: 'ip', body: new Html(ip) }, { units: 'si', body: new Html(si) }, change).source;

test('what says the same stands once, unchanged', () => {
  const same = '<p class="a" title="b">Held &lt; 15 min &amp; more<br></p><!--x--><ul><li>1</li></ul>';
  expect(woven(same, same)).toBe(same);
});

test('a text that differs stands twice, each marked with its system, beside what is the same', () => {
  expect(woven('<p>At <b>x</b> 500 µm</p>', '<p>At <b>x</b> 67 Pa</p>')).toBe(
    '<p>At <b>x</b><span data-u="ip"> 500 µm</span><span data-u="si"> 67 Pa</span></p>',
  );
});

test('an attribute that differs carries the other beside it', () => {
  expect(woven('<i aria-label="500 µm" data-chart="1">x</i>', '<i aria-label="67 Pa" data-chart="2">x</i>')).toBe(
    `<i aria-label="500 µm" ${otherPrefix}aria-label="67 Pa" data-chart="1" ${otherPrefix}data-chart="2">x</i>`,
  );
});

test('a part that one system lacks is shown in the other alone, and what is around it once', () => {
  expect(woven('<ul><li>a</li><li>b</li><li>c</li></ul>', '<ul><li>a</li><li>c</li></ul>')).toContain('data-u="ip"');
  expect(woven('<p>a</p><h2>only</h2><p>c</p>', '<p>a</p><p>c</p>')).toBe('<p>a</p><h2 data-u="ip">only</h2><p>c</p>');
  expect(woven('<p>a</p><p>c</p>', '<p>a</p><h2>only</h2><p>c</p>')).toBe('<p>a</p><h2 data-u="si">only</h2><p>c</p>');
  expect(woven('<i class="a">x</i>', '<i class="b">x</i>')).toBe(
    '<i class="a" data-u="ip">x</i><i class="b" data-u="si">x</i>',
  );
});

test('an id stands once, whichever parts differ', () => {
  const page = woven(
    '<h2 id="a">1</h2><p class="x" id="b"><i id="c"></i></p>',
    '<h2 id="a">2</h2><p class="y" id="b"><i id="c"></i></p>',
  );
  expect(page.match(/ id="[a-c]"/g)).toEqual([' id="a"', ' id="b"', ' id="c"']);
});

test('every text and label is changed, of either system', () => {
  const page = woven(
    '<p aria-label="2 in" title="2 in">2 in</p>',
    '<p aria-label="5 cm" title="2 in">5 cm</p>',
    (text) => text.replace(/\d/, '#'),
  );
  expect(page).toBe(
    `<p aria-label="# in" ${otherPrefix}aria-label="# cm" title="2 in"><span data-u="ip"># in</span><span data-u="si"># cm</span></p>`,
  );
});

/** What a reader of one system is shown, as the style sheet and the page's script have it. */
function shownIn(source: string, units: 'ip' | 'si', first: 'ip' | 'si'): unknown {
  const of = (parent: Tree.ParentNode): unknown[] =>
    parent.childNodes.flatMap((child): unknown[] => {
      if (tree.isTextNode(child)) return [child.value];
      if (!tree.isElementNode(child)) return [];
      const value = (name: string) => child.attrs.find((one) => one.name === name)?.value;
      const only = value('data-u');
      if (only !== undefined && only !== units) return [];
      const isWrapped = child.nodeName === 'span' && only !== undefined;
      const attributes = child.attrs
        .filter(({ name }) => !name.startsWith('data-') && name !== 'id')
        .map(({ name, value: own }) => [name, (units === first ? undefined : value(`${otherPrefix}${name}`)) ?? own]);
      return isWrapped
        ? of(child)
        : [[child.nodeName, attributes.sort(([a], [b]) => a.localeCompare(b)), joined(of(child))]];
    });
  return joined(of(parseFragment(source)));
}

/** Texts side by side are one. */
function joined(parts: readonly unknown[]): unknown[] {
  return parts.reduce<unknown[]>((all, part) => {
    const last = all.at(-1);
    if (typeof part !== 'string' || typeof last !== 'string') return part === '' ? all : [...all, part];
    return [...all.slice(0, -1), last + part];
  }, []);
}

const { part } = fc.letrec<{ part: Html; text: Html; element: Html }>((tie) => ({
  part: fc.oneof({ maxDepth: 3 }, tie('text'), tie('element')),
  text: fc.constantFrom('1', '2', 'a ').map((word) => html`${word}`),
  element: fc
    .record({
      name: fc.constantFrom('p', 'b', 'li'),
      kind: fc.constantFrom('', 'x', 'y'),
      label: fc.constantFrom('m', 'n'),
      parts: fc.array(tie('part'), { maxLength: 3 }),
    })
    .map(
      ({ name, kind, label, parts }) =>
        new Html(`<${name}${kind === '' ? '' : ` class="${kind}"`} title="${label}">${parts.join('')}</${name}>`),
    ),
}));
const body = fc.array(part, { maxLength: 5 }).map((parts) => parts.join(''));

test('whatever two pages hold, each of them can be read out of the woven one', () => {
  fc.assert(
    fc.property(body, body, (ip, si) => {
      const page = woven(ip, si);
      expect(shownIn(page, 'ip', 'ip')).toEqual(shownIn(ip, 'ip', 'ip'));
      expect(shownIn(page, 'si', 'ip')).toEqual(shownIn(si, 'si', 'si'));
    }),
    { numRuns: 500 },
  );
});
