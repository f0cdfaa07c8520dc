import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { type OpenedReport, drawn, settled } from './opened-report.ts';

/** Numbers all that a keyboard should reach, in the order of the page; of the radio buttons of one choice the chosen one. */
const numberThem = `(() => {
  const reached = [...document.querySelectorAll('a[href], select, button, input, summary, [tabindex="0"]')]
    .filter((element) => element.checkVisibility() && !(element.type === 'radio' && !element.checked));
  reached.forEach((element, at) => { element.dataset.place = String(at); });
  return reached.length;
})()`;

const focused = `(() => {
  const { activeElement } = document;
  const { outlineStyle, outlineWidth } = getComputedStyle(activeElement);
  return [activeElement.dataset?.place ?? 'none', outlineStyle !== 'none' && parseFloat(outlineWidth) >= 1];
})()`;

/** Where Tab leads, until it leaves the page. */
async function walk(page: Page, most: number, key: 'Tab' | 'Shift+Tab'): Promise<[string, boolean][]> {
  const places: [string, boolean][] = [];
  while (places.length <= most) {
    await page.keyboard.press(key);
    const [place, isSeen] = await page.evaluate<[string, boolean]>(focused);
    if (place === 'none') break;
    places.push([place, isSeen]);
  }
  return places;
}

/** All that can be done with a mouse, by keys. */
export function keyboard(report: () => OpenedReport): void {
  test('Tab reaches all there is to press or to scroll, in the order of the page, visibly, and leaves again', async () => {
    const [, manager, , owner, , , job] = report().kinds();
    for (const file of [manager, owner, job]) {
      const { page } = await report().open(file);
      await page.evaluate("for (const details of document.querySelectorAll('details')) details.open = true");
      const count = await page.evaluate<number>(numberThem);
      expect(count).toBeGreaterThanOrEqual(5);
      const wanted = Array.from({ length: count }, (_, at): [string, boolean] => [String(at), true]);
      expect([file, await walk(page, count, 'Tab')]).toEqual([file, wanted]);
      await page.context().close();
    }
  });

  test('Shift and Tab lead back', async () => {
    const { page } = await report().open('trainer.html');
    const count = await page.evaluate<number>(numberThem);
    const wanted = Array.from({ length: count }, (_, at): [string, boolean] => [String(count - 1 - at), true]);
    expect(await walk(page, count, 'Shift+Tab')).toEqual(wanted);
    await page.context().close();
  });

  test('the units, the filters, what unfolds and the links work by keys', async () => {
    const { page, complaints } = await report().open('service-manager.html');
    await page.focus('input[name=units][value=ip]');
    await page.keyboard.press('ArrowRight');
    await drawn(page);
    expect(await page.getAttribute('html', 'data-units')).toBe('si');
    await page.focus('select[name=crew]');
    const all = await page.textContent('#filters output');
    await page.keyboard.press('ArrowDown');
    await settled(page);
    expect(await page.inputValue('select[name=crew]')).not.toBe('');
    expect(await page.textContent('#filters output')).not.toBe(all);
    await page.focus('#filters button');
    await page.keyboard.press('Enter');
    await settled(page);
    expect(await page.textContent('#filters output')).toBe(all);
    // What "Show all" puts back are the filters.
    expect(await page.getAttribute('html', 'data-units')).toBe('si');
    await page.focus('summary');
    await page.keyboard.press('Enter');
    expect(await page.evaluate("document.querySelector('summary').parentElement.open")).toBe(true);
    await page.focus('.nav a[href="#technicians"]');
    await page.keyboard.press('Enter');
    // The address is told of a moment after the key.
    await page.waitForURL((url) => url.hash === '#technicians');
    expect(complaints).toEqual([]);
    await page.context().close();
  });
}
