import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import type { AccountsReport, CylinderReport } from '../../src/pages/accounts-data.ts';
import type { ApplianceReport, DueReport, LeaksReport } from '../../src/pages/leaks-data.ts';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
const run = (...args: string[]) => dryhold(args, { cwd: folder.path });
const said = (...args: string[]) => {
  const { status, stdout, stderr } = run(...args);
  expect([status, stderr]).toEqual([0, '']);
  return stdout;
};
const json = <Report>(...args: string[]) => JSON.parse(said(...args, '--json')) as Report;
type Row = Record<string, string>;
const rowsOf = (csv: string) => parse<Row>(csv, { columns: true });
const bundle = (table: string) => rowsOf(readFileSync(join(folder.path, 'bundle', `${table}.csv`), 'utf8'));

const made: (number | null)[] = [];

beforeAll(() => {
  for (const args of [
    ['simulate', '--jobs', '400', '--seed', '3', '--out', 'bundle'],
    ['ingest', 'bundle', '--quiet'],
    ['judge', '--quiet'],
  ])
    made.push(run(...args).status);
}, 240_000);
afterAll(() => folder.remove());

test('a store is made', () => {
  expect(made).toEqual([0, 0, 0]);
});

describe('accounts', () => {
  test('for people: what moved, what is missing, what was needed, what it cost, what is kept apart', () => {
    const text = said('accounts');
    for (const head of [
      'Where the refrigerant went',
      'Month by month',
      'By crew',
      'Cylinders to look at',
      'Charged beside what was needed',
      'What callbacks cost',
      'Cannot be accounted, because',
      'never vent',
    ])
      expect(text).toContain(head);
    expect(text).toContain('40 CFR 84');
    expect(said('accounts', '--gwp', 'ar6')).toContain('IPCC AR6');
    expect(text).not.toMatch(/\bsafe\b|NaN|undefined|null/);
  });

  test.each(['refrigerant', 'month', 'crew', 'cylinder'])('by %s as CSV adds up in every line', (by) => {
    const rows = rowsOf(said('accounts', '--by', by, '--csv', '--units', 'si'));
    expect(rows.length).toBeGreaterThan(3);
    for (const row of rows) {
      const kg = (column: string) => Number(row[`${column}_kg`]);
      const left = kg('opening') + kg('bought') + kg('recovered');
      const right = kg('charged') + kg('returned') + kg('untold') + kg('unexplained') + kg('on_hand');
      expect(Math.abs(left - right)).toBeLessThan(0.0005);
      expect(row.gwp_vintage).toBe('40 CFR 84');
    }
  });

  test('a part of the year opens with what the part before had on hand', () => {
    const onHand = (args: string[]) =>
      Number(
        rowsOf(said('accounts', '--csv', '--units', 'si', ...args)).find(({ refrigerant }) => refrigerant === 'R-410A')
          ?.on_hand_kg,
      );
    const second = rowsOf(said('accounts', '--csv', '--units', 'si', '--from', '2026-01-01'));
    const opening = Number(second.find(({ refrigerant }) => refrigerant === 'R-410A')?.opening_kg);
    expect(opening).toBeGreaterThan(0);
    expect(opening).toBe(onHand(['--to', '2025-12-31']));
  });

  test('a cylinder is added up as anybody would by hand', () => {
    const spoilt = new Set(bundle('cylinder_truth').flatMap((row) => [row.cylinder_id, row.other_cylinder_id]));
    const weighings = Map.groupBy(bundle('weighings'), ({ cylinder_id: id }) => id);
    const honest = bundle('cylinders').filter(
      ({ cylinder_id: id, kind, closing_kg: closing, tare_kg: tare }) =>
        kind === 'supply' &&
        closing !== '' &&
        !spoilt.has(id) &&
        (weighings.get(id) ?? []).every(({ start_kg: start }) => Number(start) > Number(tare)),
    );
    expect(honest.length).toBeGreaterThan(2);
    for (const { cylinder_id: id, net_kg: net, closing_kg: closing } of honest.slice(0, 3)) {
      const drawnKg = (weighings.get(id) ?? []).reduce(
        (sum, row) => sum + Number(row.start_kg) - Number(row.end_kg),
        0,
      );
      const { balance, lines } = json<CylinderReport>('accounts', id);
      expect(lines).toHaveLength(weighings.get(id)?.length ?? -1);
      expect(balance.boughtKg).toBe(Number(net));
      expect(balance.returnedKg).toBe(Number(closing));
      // But for weights that a pulled hose showed wrongly, which the scale's series mends.
      expect(Math.abs(balance.chargedKg - drawnKg)).toBeLessThan(0.11);
      expect(balance.unexplainedKg).toBeCloseTo(Number(net) - balance.chargedKg - Number(closing), 6);
    }
  });

  test('finds what was taken from cylinders', () => {
    const lost = bundle('cylinder_truth').filter(({ kind }) => kind === 'lost');
    const { remarked } = json<AccountsReport>('accounts');
    const found = lost.filter(({ cylinder_id: id, kg }) =>
      remarked
        .find(({ cylinderId }) => cylinderId === id)
        ?.remarks.some((remark) => remark.id === 'missing' && Math.abs(remark.gap.kg - Number(kg)) < 0.1),
    );
    expect(lost.length).toBeGreaterThan(0);
    expect(found).toEqual(lost);
  });

  test('with codes nobody is named', () => {
    const names = bundle('people').map(({ display_name: name }) => name);
    for (const args of [['accounts'], ['accounts', '--json'], ['accounts', '--by', 'technician', '--csv']]) {
      const text = said(...args, '--codes');
      for (const name of names) expect(text).not.toContain(name);
    }
    expect(said('accounts', '--by', 'technician', '--csv', '--codes')).toContain('P001');
  });
});

describe('leaks', () => {
  test('for people: rates, rules, what is worth repairing, and that it is no legal advice', () => {
    const text = said('leaks');
    for (const head of [
      'Leak rates of appliances',
      'Which rule applies',
      'Most worth repairing',
      'Cannot be accounted, because',
      'No legal advice',
    ])
      expect(text).toContain(head);
    expect(text).toContain('second hand');
    expect(text).not.toMatch(/\bsafe\b|NaN|undefined/);
  });

  test('an appliance is reckoned as anybody would by hand', () => {
    // Single additions with a day between them and no leak in common: pounds added ÷ full charge × 365 ÷ days since the last.
    const report = json<LeaksReport>('leaks');
    const single = report.ruled.find(
      ({ latest }) => latest?.daysFrom === 'last-addition' && latest.addition.parts.length === 1,
    );
    const { systemId, fullChargeKg } = single?.appliance ?? { systemId: '', fullChargeKg: null };
    const added = bundle('weighings')
      .filter((row) => row.system_id === systemId && row.direction === 'in')
      .map((row) => ({
        day: Date.parse(row.at.slice(0, 10)) / 86_400_000,
        kg: Number(row.start_kg) - Number(row.end_kg),
      }))
      .toSorted((a, b) => a.day - b.day);
    const last = added.at(-1)?.day ?? 0;
    const before = added.filter(({ day }) => day < last).at(-1)?.day ?? 0;
    const kg = added.filter(({ day }) => day === last).reduce((sum, one) => sum + one.kg, 0);
    expect(last - before).toBeLessThan(365);
    expect(single?.latest?.annualising).toBeCloseTo((kg / Number(fullChargeKg)) * (365 / (last - before)), 9);
    const text = said('leaks', systemId);
    expect(text).toContain(`365 ÷ ${last - before} days since refrigerant was added last`);
  });

  test('tells why no rule applies', () => {
    const { ruled } = json<ApplianceReport>(
      'leaks',
      bundle('appliances').find(({ sector }) => sector === 'residential-comfort')?.system_id ?? '',
      '--on',
      '2026-03-01',
    );
    expect(ruled.map(({ rule, verdict }) => [rule.id, verdict.reason.id])).toEqual([
      ['us-40-cfr-82-157', 'not-ozone-depleting'],
      ['us-40-cfr-84-106', 'excluded-sector'],
      ['eu-2024-573', 'other-jurisdiction'],
      ['eu-1005-2009', 'other-jurisdiction'],
    ]);
  });

  test('as CSV, each line with its rule, how it is known, and the notice', () => {
    const rows = rowsOf(said('leaks', '--csv'));
    const ruled = rows.filter(({ rule_id: rule }) => rule !== '');
    expect(ruled.length).toBeGreaterThan(5);
    for (const row of ruled) {
      expect(row.rule_known_by).toMatch(/second hand|from memory/);
      expect(row.notice).toContain('No legal advice');
      expect(row.over_annualising).toBe(String(Number(row.leak_rate_annualising_ratio) > Number(row.trigger_ratio)));
    }
  });
});

describe('due', () => {
  test('as of a day: overdue first, and a status for scripts', () => {
    const { open } = json<DueReport>('due', '--on', '2026-06-30');
    const states = open.map(({ state }) => state);
    expect(states).toEqual(
      [...states].sort((a, b) => ['overdue', 'due', 'unknown'].indexOf(a) - ['overdue', 'due', 'unknown'].indexOf(b)),
    );
    expect(states).toContain('overdue');
    expect(run('due', '--on', '2026-06-30', '--fail-on-overdue').status).toBe(1);
    expect(run('due', '--on', '2020-01-01', '--fail-on-overdue', '--calibration', '600').status).toBe(0);
    const text = said('due', '--on', '2026-06-30');
    expect(text).toContain('overdue');
    expect(text).toContain('No legal advice');
  });

  test('asks about today, where nobody says, and says where the record ends', () => {
    expect(said('due')).toMatch(/^As of \d+ \w+ \d{4} \(the record ends on 30 Jun 2026\)/);
  });

  test('as CSV', () => {
    const rows = rowsOf(said('due', '--on', '2026-06-30', '--csv'));
    expect(rows.some(({ what, state }) => what === 'repair' && state === 'overdue')).toBe(true);
    expect(rows.some(({ what }) => what === 'calibration')).toBe(true);
  });
});
