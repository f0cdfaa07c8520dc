import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
import { followingSpread } from '../../src/facts/pressure-test/hold-covariance.ts';
import { readIn } from '../pages/read-in.ts';
import { dryhold, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
afterAll(() => folder.remove());
const circuit = ['--volume', '5L', '--refrigerant', 'R-410A'];
const run = (...args: string[]) => dryhold(['plan', ...args], { cwd: folder.path });
/** What is told, without line breaks between words. */
const told = (...args: string[]) => {
  const { stdout, stderr, status } = run(...circuit, ...args);
  expect([stderr, status]).toEqual(['', 0]);
  return stdout.replace(/\s+/g, ' ');
};
const answer = (...args: string[]) => {
  const { stdout, stderr, status } = run(...circuit, ...args, '--json');
  expect([stderr, status]).toEqual(['', 0]);
  return JSON.parse(stdout) as Answer;
};

type Row = Record<string, number | boolean | null>;
interface Answer {
  readonly volume_l: number;
  readonly volume_low_l: number;
  readonly volume_high_l: number;
  readonly volume_basis: string;
  readonly atmosphere_pa: number;
  readonly leak_kg_per_year: number;
  readonly pressure_test: Tested & {
    test_pa: number;
    needed_at_best_s: number | null;
    needed_at_worst_s: number | null;
  };
  readonly rise_test: Tested & { needed_to_tell_at_best_s: number | null };
}
interface Tested {
  readonly lengths: Row[];
}

describe('dryhold plan', () => {
  test('shows a person what each test sees by its length, which to trust, and what was assumed', () => {
    const { stdout, stderr, status } = run(...circuit);
    expect([stderr, status]).toEqual(['', 0]);
    expect(stdout).toMatch(/^How small a leak does a test see\? \(0\.177 ft³, R-410A\)\n/);
    expect(stdout).toContain('\nPressure test, nitrogen at 300.0 psig\nlength  drop ');
    expect(stdout).toMatch(/^24 h +\d\.\d\d psi +[\d.]+ (oz to|lb to|to) [\d.]+ lb$/m);
    expect(stdout).toContain('\nRise test from 200 µm\n');
    expect(stdout).toMatch(/^15 min +0\.1\d\d +0\.\d\d to 1\d oz +1\.\d\d +\d\.\d oz to 1\d lb$/m);
    expect(stdout.match(/^(5 min|24 h) /gm)).toHaveLength(4);
    expect(stdout.split('\n').every((line) => line.length <= 100)).toBe(true);
    const text = stdout.replace(/\s+/g, ' ');
    expect(text).toContain('believe it when it shows one, not when it shows none');
    expect(text).toContain('A vacuum pulls with one atmosphere only');
    expect(text).toContain('an order of magnitude');
    expect(text).toContain('Pressure test: assumed (common practice, no source) 300.0 psig, gauge steps of 1.00 psi');
    expect(text).toContain('Dry nitrogen only, never oxygen or air; through a regulator and with a relief device');
    expect(text).toContain('never above the equipment’s rating');
    expect(text).toContain('no figure here says that a system is safe');
    expect(text.match(/\bsafe\b/g)).toHaveLength(1);
  });

  test('finds how long a test must be for a leak', () => {
    const text = told('--leak', '100g');
    expect(text).toContain('How long must a test be to see a leak of 3.5 oz a year?');
    expect(told('--leak', '500g')).toMatch(/Pressure test, nitrogen at 300\.0 psig \d+ h( \d+ min)? \d+ h( \d+ min)? /);
    expect(text).toMatch(/told for a leak \d\d min \d+ h( \d+ min)? /);
    expect(text).not.toMatch(/length drop/);
    expect(told('--leak', '2g/year')).toMatch(/300\.0 psig not within 7 days not within 7 days/);
    expect(told('--leak', '1 lb', '--units', 'si')).toContain('a leak of 450 g a year');
  });

  test('answers one length, and both where both are asked for', () => {
    expect(told('--time', '15min').match(/\b15 min [\d.]+/g)).toHaveLength(2);
    const both = told('--time', '1 h 30 min', '--leak', '100g');
    expect(both).toMatch(/a leak of 3\.5 oz a year, and how small a leak does one of 90 min see\?/);
    expect(both).toMatch(/at best whatever the opening seen in 90 min .* 90 min \d\.\d\d psi/);
    // The table of lengths and what that one length sees say the same.
    expect(both).toMatch(/nitrogen at 300\.0 psig \d+ h not within 7 days no /);
    expect(both).toMatch(
      /told for a leak \d+ min \d+ h( \d+ min)? at best leak|told for a \d+ min \d+ h( \d+ min)? at best leak/,
    );
    const { pressure_test: pressure, rise_test: rise } = answer('--time', '1 h 30 min', '--leak', '100g');
    expect(pressure.lengths).toMatchObject([{ duration_s: 5400, sees_leak_at_best: false, sees_leak_at_worst: false }]);
    expect(rise.lengths).toMatchObject([{ tells_leak_at_best: true, tells_leak_at_worst: false }]);
    expect(pressure.needed_at_best_s).toBeGreaterThan(5400);
  });

  test('in SI a test pressure is what a gauge shows, and no unit of the trade is left', () => {
    const text = told('--units', 'si', '--pressure', '20barg');
    expect(text).toContain('nitrogen at 20.00 bar gauge');
    expect(text).toContain('Rise test from 26.7 Pa');
    expect(text).not.toMatch(/psi|µm|\boz\b|\blb\b|ft³|°F/);
  });

  test('what was given is not assumed', () => {
    const text = told('--from', '350micron', '--vacuum-noise', '0.5%', '--temperature-uncertainty', '1K');
    expect(text).toContain(
      'Rise test: valve-off at 350 µm, noise of 0.5 %; assumed (common practice, no source) 30 min',
    );
    expect(text).toContain('Pressure test: its change over the test known to 1.8 °F (95 %, either way); assumed');
  });

  test('one test alone, which is never said to stand for the other', () => {
    const rise = told('--test', 'rise');
    expect(rise).not.toContain('psig');
    expect(rise).toContain('The leak test is the pressure test.');
    const nitrogen = told('--test', 'nitrogen');
    expect(nitrogen).not.toContain('µm');
    expect(nitrogen).toContain('Dry nitrogen only');
  });

  test('quiet leaves out all but what no figure may stand without', () => {
    const text = told('--quiet');
    expect(text).not.toContain('Trust the pressure test');
    expect(text).toContain('assumed (common practice, no source)');
    expect(text).toContain('Dry nitrogen only');
  });

  test('never advises more pressure: where a leak is too small for seven days, length is all it speaks of', () => {
    const text = told('--leak', '1g');
    expect(text).toContain('More pressure must not be used for that, and never any above the rating.');
    expect(text).not.toMatch(/higher pressure|raise the pressure|more nitrogen/i);
  });

  test('machines get SI by names of the facts; null for a length that is not found', () => {
    const found = answer('--time', '1h', '--leak', '1g', '--altitude', '5000ft');
    expect(found.volume_l).toBeCloseTo(5, 12);
    // 12.23 psia at 5000 ft in the standard atmosphere (ISO 2533).
    expect(found.atmosphere_pa / 6894.757).toBeCloseTo(12.23, 2);
    expect(found.pressure_test.test_pa / 6894.757).toBeCloseTo(312.23, 2);
    expect(found.leak_kg_per_year).toBeCloseTo(0.001, 12);
    expect(Object.keys(found.pressure_test.lengths[0])).toEqual([
      'duration_s',
      'smallest_drop_seen_pa',
      'smallest_test_loss_low_kg_per_year',
      'smallest_test_loss_high_kg_per_year',
      'sees_leak_at_best',
      'sees_leak_at_worst',
    ]);
    expect(Object.keys(found.rise_test.lengths[0])).toEqual([
      'duration_s',
      'smallest_rise_seen_pa_per_s',
      'smallest_rise_loss_low_kg_per_year',
      'smallest_rise_loss_high_kg_per_year',
      'smallest_leak_seen_pa_per_s',
      'smallest_loss_low_kg_per_year',
      'smallest_loss_high_kg_per_year',
      'shows_leak_at_best',
      'shows_leak_at_worst',
      'tells_leak_at_best',
      'tells_leak_at_worst',
    ]);
    expect([found.pressure_test.needed_at_best_s, found.pressure_test.needed_at_worst_s]).toEqual([null, null]);
    expect(found.rise_test.needed_to_tell_at_best_s).toBeGreaterThan(3600);
  });

  test('a length that is the shortest planned is flagged: less may do', () => {
    const { rise_test: rise } = answer('--leak', '100g', '--test', 'rise');
    expect(rise).toMatchObject({ needed_to_show_at_best_s: 300, needed_to_show_at_best_or_less: true });
    expect(rise).toMatchObject({ needed_to_tell_at_best_or_less: false });
    expect(told('--leak', '100g', '--test', 'rise')).toContain('shows at all 5 min or less');
  });

  test('a volume is estimated as that of a job is, and its bands are as wide as it is uncertain', () => {
    const lines = ['--line', '15m', '--liquid-line', '3/8in', '--suction-line', '3/4in', '--cooling', '8kW'];
    const plan = (...args: string[]) => run('--refrigerant', 'r32', '--leak', '500g', '--time', '1h', ...args);
    const shut = JSON.parse(plan(...lines, '--json').stdout) as Answer;
    // By hand: bores of 0.311 and 0.68 in (ASTM B280, from memory) over 15 m, and 0.25 L/kW of coil (common practice).
    const lineL = 15_000 * (Math.PI / 4) * ((0.311 * 2.54) ** 2 + (0.68 * 2.54) ** 2) * 1e-2 * 1e-2;
    expect(shut.volume_l).toBeCloseTo(lineL + 2, 6);
    const halfL = Math.hypot(0.1 * lineL, 0.4 * 2);
    expect([shut.volume_low_l, shut.volume_high_l]).toEqual([
      expect.closeTo(lineL + 2 - halfL, 6),
      expect.closeTo(lineL + 2 + halfL, 6),
    ]);
    expect(shut.volume_basis).toBe('estimated');
    // The same volume, given: its bands rest on 10 %, the estimate's on its own spread.
    const given = JSON.parse(plan('--volume', `${shut.volume_l}L`, '--json').stdout) as Answer;
    const loss = (of: Answer, end: 'low' | 'high') =>
      Number(of.pressure_test.lengths[0]?.[`smallest_test_loss_${end}_kg_per_year`]);
    expect(loss(shut, 'high') / loss(given, 'high')).toBeCloseTo((1 + halfL / (lineL + 2)) / 1.1, 9);
    expect(loss(shut, 'low') / loss(given, 'low')).toBeCloseTo((1 - halfL / (lineL + 2)) / 0.9, 9);
    expect(shut.pressure_test.needed_at_best_s).toBeLessThan(given.pressure_test.needed_at_best_s ?? 0);
    expect(shut.pressure_test.needed_at_worst_s).toBeGreaterThan(given.pressure_test.needed_at_worst_s ?? 1e9);
    // 0.6 L/kW and 0.8 L of an outdoor unit.
    const whole = JSON.parse(plan(...lines, '--with-outdoor-unit', '--json').stdout) as Answer;
    expect(whole.volume_l - shut.volume_l).toBeCloseTo(0.6 * 8 + 0.8, 6);
    const text = plan(...lines, '--units', 'si').stdout.replace(/\s+/g, ' ');
    expect(text).toContain('(6.25 L estimated, R-32)');
    expect(text).toContain('6.25 L as estimated for lines and indoor coil alone; assumed');
    expect(text).toContain('the volume 5.34 to 7.16 L');
  });

  test('says that a pressure test needs its clamp, and that a night is not an even day', () => {
    const text = told('--quiet');
    expect(text).toContain('only where a clamp logs the temperature of the pipe all through');
    expect(text).toContain('To know its change to 2 °F (95 %, either way) is usual on an even day');
    // Half a 95 % interval of what the gas does of 12 °F, beside that of an even day.
    const unknown = Math.hypot(2, 1.96 * followingSpread * 12);
    expect(text).toContain(`evenly by 12 °F, one way, some ${Math.round(unknown)} °F remain unknown`);
    expect(told('--quiet', '--test', 'rise')).not.toContain('clamp');
  });

  test('a volume in cubic feet is the same volume', () => {
    const [litres, feet] = ['28.316846592L', '1 cu ft'].map((volume) =>
      run('--volume', volume, '--refrigerant', 'r32', '--time', '1h', '--json'),
    );
    expect(JSON.parse(feet.stdout)).toEqual(JSON.parse(litres.stdout));
  });

  test('whatever is allowed at the edges gives figures', () => {
    for (const args of [
      ['--time', '720h', '--reading-every', '300s', '--vacuum-noise', '0%'],
      ['--time', '1min', '--pressure', '1.5psig', '--temperature-uncertainty', '0F', '--pressure-step', '0.001psi'],
      ['--time', '1min', '--pressure', '2900psig', '--from', '20000micron', '--vacuum-step', '1000micron'],
      [
        '--time',
        '5min',
        '--from',
        '1micron',
        '--vacuum-noise',
        '20%',
        '--temperature',
        '-40F',
        '--altitude',
        '36000ft',
      ],
    ])
      for (const row of [answer(...args)].flatMap((one) => [...one.pressure_test.lengths, ...one.rise_test.lengths]))
        for (const value of Object.values(row)) expect(value).toBeGreaterThan(0);
  });

  test('too few readings are said, and are null', () => {
    expect(told('--time', '2min', '--reading-every', '60s')).toContain('too few readings');
    const [row] = answer('--time', '2min', '--reading-every', '60s').rise_test.lengths;
    expect([row.smallest_rise_seen_pa_per_s, row.smallest_loss_high_kg_per_year]).toEqual([null, null]);
  });

  test('writes a page with tables and chart', () => {
    const { stdout, stderr, status } = run(...circuit, '--leak', '100g', '--html', 'plan.html');
    expect([stdout, stderr, status]).toEqual(['plan.html\n', '', 0]);
    const page = readIn(readFileSync(join(folder.path, 'plan.html'), 'utf8'), 'ip');
    expect(page).toContain('<h1>How long must a test be to see a leak of 3.5 oz a year? (0.177 ft³, R-410A)</h1>');
    expect(page).toContain('data-chart="0"');
  });
});
