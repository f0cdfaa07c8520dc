import type { Page } from 'playwright-core';

/**
 * The rows of a chart that has one a technician, as they are drawn: the label at the left, and the text that stands beside it at the
 * right. A label that was cut, and a text of two lines, are put together again.
 *
 * @param label how the description of the chart begins
 */
export async function rowTexts(page: Page, label: string): Promise<ReadonlyMap<string, string>> {
  const rows = await page.evaluate<[string, string][]>(
    `(() => {
      const chart = document.querySelector('[aria-label^=' + JSON.stringify(${JSON.stringify(label)}) + ']');
      const middle = (element) => {
        const { top, bottom } = element.getBoundingClientRect();
        return (top + bottom) / 2;
      };
      const textOf = (element) => [...element.querySelectorAll('tspan')].map(({ textContent }) => textContent).join(' ') || element.textContent;
      const edge = chart.querySelector('.background').getBoundingClientRect();
      const texts = [...chart.querySelectorAll('.mark-text.role-mark text')].filter((text) => text.getBoundingClientRect().left >= edge.right);
      const labels = [...chart.querySelectorAll('.role-axis-label text')].filter((text) => text.getBoundingClientRect().right <= edge.left);
      return texts.map((text) => {
        const at = middle(text);
        const [nearest] = labels.toSorted((a, b) => Math.abs(middle(a) - at) - Math.abs(middle(b) - at));
        return [nearest.textContent, textOf(text)];
      });
    })()`,
  );
  return new Map(rows);
}

/**
 * What a chart by month shows, month by month: the share where the dot stands on the axis, and the number under it.
 *
 * @param label how the description of the chart begins
 */
export function monthlyShares(page: Page, label: string): Promise<{ share: number; judged: number }[]> {
  return page.evaluate(
    `(() => {
      const chart = document.querySelector('[aria-label^=' + JSON.stringify(${JSON.stringify(label)}) + ']');
      const place = (element) => element.getAttribute('transform').match(/[-\\d.]+/g).map(Number);
      const ticks = [...chart.querySelectorAll('.role-axis-label text')]
        .filter(({ textContent }) => textContent.endsWith('%'))
        .map((text) => [parseFloat(text.textContent) / 100, text.getBoundingClientRect()])
        .map(([share, { top, bottom }]) => [share, (top + bottom) / 2]);
      const [[low, lowPx], [high, highPx]] = [ticks.at(0), ticks.at(-1)];
      const texts = [...chart.querySelectorAll('.mark-text.role-mark text')];
      return [...chart.querySelectorAll('.mark-symbol.role-mark path')].map((dot) => {
        const { top, bottom } = dot.getBoundingClientRect();
        const share = low + (((top + bottom) / 2 - lowPx) / (highPx - lowPx)) * (high - low);
        const [x] = place(dot);
        const number = texts.find((text) => Math.abs(place(text)[0] - x) < 1);
        return { x, share, judged: Number(number.textContent) };
      }).sort((a, b) => a.x - b.x).map(({ share, judged }) => ({ share, judged }));
    })()`,
  );
}
