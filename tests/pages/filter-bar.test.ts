import { type DefaultTreeAdapterTypes as Tree, defaultTreeAdapter as tree, parseFragment } from 'parse5';
import { expect, test } from 'vitest';
import { type FilterChoices, filterBar } from '../../src/pages/filter-bar.ts';

const none: FilterChoices = {
  crews: [],
  technicians: [],
  refrigerants: [],
  months: [],
  grain: 'month',
  counted: { table: 'job-cells', noun: 'rows' },
};

interface Choice {
  readonly name: string;
  readonly usual: string;
  readonly label: string;
  readonly options: readonly (readonly [value: string, text: string])[];
  readonly selected: string | undefined;
}

/** What a bar offers, as a browser reads it. */
function offered(choices: Partial<FilterChoices>): { selects: Choice[]; output: Record<string, string> } {
  const all: Tree.Element[] = [];
  const walk = (parent: Tree.ParentNode): void =>
    parent.childNodes.forEach((child) => {
      if (tree.isElementNode(child)) {
        all.push(child);
        walk(child);
      }
    });
  walk(parseFragment(filterBar({ ...none, ...choices }).source));
  const value = (element: Tree.Element, name: string) => element.attrs.find((one) => one.name === name)?.value;
  const text = (element: Tree.Element) =>
    element.childNodes.map((child) => (tree.isTextNode(child) ? child.value : '')).join('');
  const output = all.find(({ tagName }) => tagName === 'output');
  return {
    output: Object.fromEntries((output?.attrs ?? []).map(({ name, value: own }) => [name, own])),
    selects: all
      .filter(({ tagName }) => tagName === 'select')
      .map((select) => {
        const options = select.childNodes.filter((child) => tree.isElementNode(child));
        const chosen = options.find((option) => value(option, 'selected') !== undefined);
        return {
          name: value(select, 'name') ?? '',
          usual: value(select, 'data-usual') ?? '',
          label: text(select.parentNode as Tree.Element),
          options: options.map((option) => [value(option, 'value') ?? '', text(option)]),
          selected: chosen === undefined ? undefined : value(chosen, 'value'),
        };
      }),
  };
}

test('what has fewer than two to choose from is not offered', () => {
  expect(offered({}).selects).toEqual([]);
  expect(offered({ crews: ['a'], technicians: ['t'], refrigerants: ['R-32'], months: ['2026-01'] }).selects).toEqual(
    [],
  );
  expect(filterBar(none).source).toBe('');
  const two = {
    crews: ['a', 'b'],
    technicians: ['t', 'u'],
    refrigerants: ['R-32', 'R-410A'],
    months: ['2026-01', '2026-02'],
  };
  expect(offered(two).selects.map(({ name, label, usual }) => [name, label, usual])).toEqual([
    ['crew', 'Crew', ''],
    ['technician', 'Technician', ''],
    ['refrigerant', 'Refrigerant', ''],
    ['from', 'From', ''],
    ['to', 'To', ''],
  ]);
});

test('everything comes first, then each as it is called; months as people write them', () => {
  const { selects } = offered({ crews: ['north', `"><script>'&`], months: ['2025-12', '2026-01'] });
  expect(selects[0]?.options).toEqual([
    ['', 'all crews'],
    ['north', 'north'],
    [`"><script>'&`, `"><script>'&`],
  ]);
  const months = [
    ['2025-12', 'Dec 2025'],
    ['2026-01', 'Jan 2026'],
  ];
  expect(selects[1]?.options).toEqual([['', 'the beginning'], ...months]);
  expect(selects[2]?.options).toEqual([['', 'the end'], ...months]);
});

test('a quarter or a year is chosen whole, so that tables that tell time more finely end with it', () => {
  const ends = (grain: FilterChoices['grain'], months: readonly string[]) =>
    offered({ months, grain }).selects.map(({ options }) => options.map(([value]) => value));
  expect(ends('quarter', ['2025-07', '2025-10'])).toEqual([
    ['', '2025-07', '2025-10'],
    ['', '2025-09', '2025-12'],
  ]);
  expect(ends('year', ['2024-01', '2025-01'])[1]).toEqual(['', '2024-12', '2025-12']);
});

test('of skills one is always chosen, which "Show all" goes back to', () => {
  const all = [
    { id: 'evacuation', title: 'evacuation' },
    { id: 'charge', title: 'charge' },
  ];
  const [skill] = offered({ skills: { all, first: 'charge' } }).selects;
  expect(skill).toEqual({
    name: 'skill',
    label: 'Skill',
    usual: 'charge',
    options: [
      ['evacuation', 'evacuation'],
      ['charge', 'charge'],
    ],
    selected: 'charge',
  });
});

test('the counter says of which table and field, and is read out when it changes', () => {
  expect(offered({ crews: ['a', 'b'] }).output).toEqual({
    'aria-live': 'polite',
    'data-table': 'job-cells',
    'data-noun': 'rows',
  });
  expect(
    offered({ crews: ['a', 'b'], counted: { table: 'skill-cells', field: 'jobs', noun: 'jobs' } }).output,
  ).toMatchObject({
    'data-table': 'skill-cells',
    'data-field': 'jobs',
  });
});

test('it says that texts and tables stay, and what else there is to note', () => {
  const stay = 'Texts and tables stay those of all jobs.';
  expect(filterBar({ ...none, crews: ['a', 'b'], note: '40 of 52 crews <b>' }).source).toContain(
    `<p class="quiet">${stay} 40 of 52 crews &lt;b&gt;</p>`,
  );
  expect(filterBar({ ...none, crews: ['a', 'b'] }).source).toContain(`<p class="quiet">${stay}</p>`);
});
