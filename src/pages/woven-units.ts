import { type DefaultTreeAdapterTypes as Tree, defaultTreeAdapter as tree, parseFragment, serialize } from 'parse5';
import type { UnitSystem } from '../units/display.ts';
import { Html } from './html.ts';

type Element = Tree.Element;
type Child = Tree.ChildNode;

/** A page as it reads in one system of units. */
export interface InOneSystem {
  readonly units: UnitSystem;
  readonly body: Html;
}

/** Marks what is read in one system only; the style sheet hides the other's. */
const onlyIn = 'data-u';
/** Before the name of an attribute: its value in the other system, for the page's script to swap. */
export const otherPrefix = 'data-other-';

/**
 * Weaves a page that was rendered in either system of units into one: where the two say the same it stands once, where they do not both
 * stand, each marked with its system.
 *
 * Texts become spans; attributes that differ keep the first's value and carry the other's beside it; where one has parts that the other
 * lacks, the parts of both stand. An id stays with the first.
 *
 * @param change what is done to every text and every label on the way, such as writing days as a reader wants them
 */
export function wovenUnits(
  first: InOneSystem,
  other: InOneSystem,
  change: (text: string) => string = (text) => text,
): Html {
  const [one, two] = [first, other].map(({ body }) => parseFragment(body.source));
  weaveChildren(one, two, [first.units, other.units]);
  changeTexts(one, change);
  return new Html(serialize(one));
}

type Systems = readonly [UnitSystem, UnitSystem];

function weaveChildren(one: Tree.ParentNode, two: Tree.ParentNode, systems: Systems): void {
  const [mine, theirs] = [one.childNodes, two.childNodes];
  const least = Math.min(mine.length, theirs.length);
  let head = 0;
  while (head < least && alike(mine[head], theirs[head])) head += 1;
  let tail = 0;
  while (tail < least - head && alike(mine[mine.length - 1 - tail], theirs[theirs.length - 1 - tail])) tail += 1;
  const woven = [
    ...mine.slice(0, head).flatMap((child, at) => weave(child, theirs[at], systems)),
    ...mine.slice(head, mine.length - tail).map((child) => only(child, systems[0])),
    ...theirs.slice(head, theirs.length - tail).map((child) => only(withoutIds(child), systems[1])),
    ...mine.slice(mine.length - tail).flatMap((child, at) => weave(child, theirs[theirs.length - tail + at], systems)),
  ];
  one.childNodes = woven;
  for (const child of woven) child.parentNode = one;
}

/** Whether two are the same thing, whatever they say. */
function alike(one: Child, two: Child): boolean {
  if (one.nodeName !== two.nodeName) return false;
  if (!tree.isElementNode(one) || !tree.isElementNode(two)) return true;
  return one.attrs.length === two.attrs.length && valueOf(one, 'class') === valueOf(two, 'class');
}

function weave(one: Child, two: Child, systems: Systems): Child[] {
  if (tree.isElementNode(one) && tree.isElementNode(two)) {
    one.attrs = one.attrs.flatMap((attribute) => {
      const theirs = valueOf(two, attribute.name);
      return theirs === undefined || theirs === attribute.value
        ? [attribute]
        : [attribute, { name: `${otherPrefix}${attribute.name}`, value: theirs }];
    });
    weaveChildren(one, two, systems);
    return [one];
  }
  if (tree.isTextNode(one) && tree.isTextNode(two) && one.value !== two.value)
    return [only(one, systems[0]), only(two, systems[1])];
  return [one];
}

/** The same, for readers of one system. */
function only(child: Child, units: UnitSystem): Child {
  if (tree.isElementNode(child)) {
    child.attrs.push({ name: onlyIn, value: units });
    return child;
  }
  if (!tree.isTextNode(child) || child.value.trim() === '') return child;
  const span = tree.createElement('span', 'http://www.w3.org/1999/xhtml' as Element['namespaceURI'], [
    { name: onlyIn, value: units },
  ]);
  tree.appendChild(span, child);
  return span;
}

function withoutIds(child: Child): Child {
  if (tree.isElementNode(child)) {
    child.attrs = child.attrs.filter(({ name }) => name !== 'id');
    child.childNodes.forEach(withoutIds);
  }
  return child;
}

function valueOf({ attrs }: Element, name: string): string | undefined {
  return attrs.find((attribute) => attribute.name === name)?.value;
}

function changeTexts(parent: Tree.ParentNode, change: (text: string) => string): void {
  for (const child of parent.childNodes) {
    if (tree.isTextNode(child)) child.value = change(child.value);
    if (!tree.isElementNode(child)) continue;
    for (const attribute of child.attrs)
      if (attribute.name.endsWith('aria-label')) attribute.value = change(attribute.value);
    changeTexts(child, change);
  }
}
