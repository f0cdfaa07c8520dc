import { parse, serialize, type DefaultTreeAdapterTypes as Tree, defaultTreeAdapter as tree } from 'parse5';
import { otherPrefix } from '../../src/pages/woven-units.ts';
import type { UnitSystem } from '../../src/units/display.ts';

/**
 * A page as it reads in one system of units: what is for readers of the other is gone, and so is every mark of it.
 *
 * @returns HTML again, unbreakable spaces as they are
 */
export function readIn(page: string, units: UnitSystem): string {
  const document = parse(page);
  const [written] = /(?<=<html [^>]*data-units=")\w+/.exec(page) ?? [];
  if (written === undefined) throw new Error('the page does not say in which units it was written');
  keep(document, units, written === units);
  return serialize(document).replaceAll('&nbsp;', '\u00a0');
}

function keep(parent: Tree.ParentNode, units: UnitSystem, isWritten: boolean): void {
  parent.childNodes = parent.childNodes.flatMap((child): Tree.ChildNode[] => {
    if (!tree.isElementNode(child)) return [child];
    const only = child.attrs.find(({ name }) => name === 'data-u')?.value;
    if (only !== undefined && only !== units) return [];
    const others = new Map(
      child.attrs.flatMap(({ name, value }) =>
        name.startsWith(otherPrefix) ? [[name.slice(otherPrefix.length), value]] : [],
      ),
    );
    child.attrs = child.attrs
      .filter(({ name }) => name !== 'data-u' && !name.startsWith(otherPrefix))
      .map(({ name, value }) => ({ name, value: isWritten ? value : (others.get(name) ?? value) }));
    keep(child, units, isWritten);
    return only !== undefined && child.tagName === 'span' && child.attrs.length === 0 ? child.childNodes : [child];
  });
}

/** What stands between the tags of what a page shows. */
export function textOf(page: string): string {
  const [, main = ''] = /<div class="page">([^]*)<\/main>/.exec(page) ?? [];
  return main.replaceAll(/<[^>]*>/g, ' ').replaceAll(/ +/g, ' ');
}
