import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { OpenedReport } from './opened-report.ts';
import { settled } from './opened-report.ts';

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe finds wrong, one line each. */
function violations(page: Page): Promise<string[]> {
  return page.evaluate<string[]>(
    `axe.run(document, { resultTypes: ['violations'] }).then(({ violations }) =>
      violations.flatMap(({ id, nodes }) => nodes.slice(0, 5).map(({ html, failureSummary }) =>
        id + ': ' + html.slice(0, 160) + ' ' + failureSummary.replace(/\\s+/g, ' ').slice(0, 200))))`,
  );
}

/** Whether people can read it, whatever they read with: by axe, and on a phone. */
export function reading(report: () => OpenedReport): void {
  test('axe finds nothing wrong, wide and light, narrow and dark; nothing scrolls sideways at 360 px', async () => {
    for (const file of report().kinds()) {
      const { page } = await report().open(file, { bypassCSP: true });
      await page.evaluate(axe);
      expect([file, await violations(page)]).toEqual([file, []]);
      // Colours do not hang on the width.
      await page.emulateMedia({ colorScheme: 'dark' });
      await page.setViewportSize({ width: 360, height: 800 });
      await settled(page);
      expect([file, await violations(page)]).toEqual([file, []]);
      // Everything that can be unfolded, too.
      await page.evaluate("for (const details of document.querySelectorAll('details')) details.open = true");
      expect([file, await page.evaluate('document.documentElement.scrollWidth')]).toEqual([file, 360]);
      await page.context().close();
    }
  });

  test('the guard proves itself: a planted fault is found', async () => {
    const { page } = await report().open('index.html', { bypassCSP: true, width: 360 });
    await page.evaluate(axe);
    await page.evaluate(
      `document.querySelector('main').insertAdjacentHTML('beforeend', '<img src="data:,"><p style="color:#bbb;width:500px">pale and wide</p>')`,
    );
    const found = (await violations(page)).join('\n');
    expect(found).toContain('image-alt');
    expect(found).toContain('color-contrast');
    expect(await page.evaluate('document.documentElement.scrollWidth')).toBeGreaterThan(360);
    await page.context().close();
  });
}
