import type { LimitPoint } from '../../src/charts/limit-margins.ts';
import { limitMargins } from '../../src/charts/limit-margins.ts';
import { pageColours } from '../../src/charts/chart-colours.ts';
import { dateOf } from '../../src/numerics/calendar-day.ts';
import { filterBar } from '../../src/pages/filter-bar.ts';
import { html } from '../../src/pages/html.ts';
import { pageShell } from '../../src/pages/page-shell.ts';

const refrigerants = ['R-32', 'R-410A', 'R-454B'];

/** A page of the report's own parts, with a chart of so many drawn points and its filters; the same seed draws the same. */
export async function pageOfPoints(count: number, seed: number): Promise<string> {
  let state = seed;
  const draw = (): number => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return state / 2 ** 32;
  };
  const rows = Array.from({ length: count }, (_, at): LimitPoint => {
    const day = dateOf(20_000 + Math.floor(365 * draw()));
    const ratio = 10 ** (2 * draw() - 1.7);
    return {
      job: `job-${at}`,
      day,
      month: day.slice(0, 7),
      ratio,
      outcome: ratio <= 1 ? 'pass' : ratio <= 1.1 ? 'suspect' : 'fail',
      crew: `crew-${Math.floor(8 * draw())}`,
      technician: `technician-${Math.floor(40 * draw())}`,
      refrigerant: refrigerants[Math.floor(refrigerants.length * draw())],
      weight: 1,
    };
  });
  return pageShell({
    title: 'Points',
    description: 'A page of many points',
    reader: { units: 'ip', dates: 'day-first' },
    body: async (_units, charts) => {
      charts.addTable('limit-points', rows);
      return html`<div class="page"><main>${filterBar({
        crews: [],
        technicians: [],
        refrigerants,
        months: [],
        grain: 'month',
        counted: { table: 'limit-points', noun: 'jobs' },
      })}${await charts.figure({ name: 'limit-margins', title: 'Many points', chart: limitMargins({ colours: pageColours }), description: 'Many points', heightPx: 300 })}</main></div>`;
    },
  });
}
