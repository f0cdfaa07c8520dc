import { describe, expect, test } from 'vitest';
import { compileChart } from '../../src/charts/compile-chart.ts';
import { filterNames } from '../../src/charts/chart-filter.ts';
import { asks, signalsOf } from './drawn-cells.ts';
import { datasets, filterableSpecimens } from './filterable-specimens.ts';
import { FilteredView } from './filtered-view.ts';
import { schemaErrors } from './schema-errors.ts';

describe.each(filterableSpecimens)('%s', (_, chart) => {
  test('is valid Vega-Lite, compiles without warnings, and can be filtered by everything', async () => {
    expect(schemaErrors(chart)).toEqual([]);
    const { spec, warnings } = await compileChart(chart);
    expect(warnings).toEqual([]);
    const signals = new Map(
      (spec.signals ?? []).map((signal) => [signal.name, 'value' in signal ? signal.value : null]),
    );
    for (const name of filterNames) expect(signals.get(name)).toBeNull();
    // Rows come by name; each is an input of its own, so that the page can give it rows.
    for (const data of spec.data ?? [])
      if (data.name in datasets)
        for (const made of ['values', 'transform', 'source']) expect(data).not.toHaveProperty(made);
    expect((spec.data ?? []).some(({ name }) => name in datasets)).toBe(true);
  });

  test('draws whatever is asked for, and without any rows', async () => {
    const view = await FilteredView.of(chart, datasets);
    for (const asked of asks) {
      const svg = await (await view.filter(signalsOf(asked))).svg();
      expect(svg).toContain('<svg');
      expect(svg).not.toMatch(/NaN|undefined|Infinity/);
    }
    expect(await (await FilteredView.of(chart, {})).svg()).not.toMatch(/NaN|undefined|Infinity/);
  });

  test('draws the same from the same rows, whichever came first', async () => {
    const turned = Object.fromEntries(Object.entries(datasets).map(([name, rows]) => [name, rows.toReversed()]));
    const [some, other] = await Promise.all([datasets, turned].map((given) => FilteredView.of(chart, given)));
    expect(other?.places()).toEqual(some?.places());
  });
});

test('charts of a page share its rows: none of them is changed', async () => {
  const before = JSON.stringify(datasets);
  const views = await Promise.all(filterableSpecimens.map(([, chart]) => FilteredView.of(chart, datasets)));
  const places = views.map((view) => view.places());
  for (const view of views) await view.filter(signalsOf({ crew: 'Birch' }));
  for (const view of views) await view.filter(signalsOf({}));
  expect(views.map((view) => view.places())).toEqual(places);
  expect(JSON.stringify(datasets)).toBe(before);
});
