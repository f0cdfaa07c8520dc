import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, test, vi } from 'vitest';
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

type Row = Record<string, number | null>;
interface Answer {
  readonly volume_l: number;
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
    expect(both).toMatch(/at best whatever the opening .* 90 min \d\.\d\d psi/);
  });

  test('in SI pressures are absolute, and no unit of the trade is left', () => {
    const text = told('--units', 'si', '--pressure', '20barg');
    expect(text).toContain('nitrogen at 21.01 bar absolute');
    expect(text).toContain('Rise test from 26.7 Pa');
    expect(text).not.toMatch(/psi|µm|\boz\b|\blb\b|ft³|°F/);
  });

  test('what was given is not assumed', () => {
    const text = told('--from', '350micron', '--vacuum-noise', '0.5%', '--temperature-uncertainty', '1K');
    expect(text).toContain(
      'Rise test: valve-off at 350 µm, noise of 0.5 %; assumed (common practice, no source) 30 min',
    );
    expect(text).toContain('Pressure test: its change over the test known to 1.8 °F; assumed');
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
    expect(text).toContain('More pressure is no way to see them.');
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
    ]);
    expect(Object.keys(found.rise_test.lengths[0])).toEqual([
      'duration_s',
      'smallest_rise_seen_pa_per_s',
      'smallest_rise_loss_low_kg_per_year',
      'smallest_rise_loss_high_kg_per_year',
      'smallest_leak_seen_pa_per_s',
      'smallest_loss_low_kg_per_year',
      'smallest_loss_high_kg_per_year',
    ]);
    expect([found.pressure_test.needed_at_best_s, found.pressure_test.needed_at_worst_s]).toEqual([null, null]);
    expect(found.rise_test.needed_to_tell_at_best_s).toBeGreaterThan(3600);
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
        '-20F',
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
    const page = readFileSync(join(folder.path, 'plan.html'), 'utf8');
    expect(page).toContain('<h1>How long must a test be to see a leak of 3.5 oz a year? (0.177 ft³, R-410A)</h1>');
    expect(page).toContain('data-chart="0"');
  });

  test.each([
    [['--refrigerant', 'R-410A'], "required option '--volume <volume>' not specified"],
    [['--volume', '5L'], "required option '--refrigerant <designation>' not specified"],
    [['--volume', '5', '--refrigerant', 'R-410A'], '--volume: cannot read "5": no unit'],
    [
      ['--volume', '-5L', '--refrigerant', 'R-410A'],
      '--volume: volume [L] out of range: must be 0.01 to 100000, received -5',
    ],
    [['--volume', '0L', '--refrigerant', 'R-410A'], 'must be 0.01 to 100000, received 0'],
    [['--volume', '5L', '--refrigerant', 'R-11'], '--refrigerant: no equation of state for "R-11"; known: R-22'],
    [
      ['--volume', '5L', '--refrigerant', 'R-32/125 (30/70)'],
      '--refrigerant: "R-32/125 (30/70)" has no table of its vapour',
    ],
    [[...circuit, '--pressure', '300psi'], '--pressure: cannot read "300psi": "psi" says neither gauge nor absolute'],
    [[...circuit, '--pressure', '10psia'], '--pressure: must be above the air at the site, by 1.5 psi to 2900 psi'],
    [[...circuit, '--pressure', '20 inHg vacuum'], 'received "20 inHg vacuum"'],
    [
      [...circuit, '--pressure-step', '0psi'],
      '--pressure-step: step [psia] out of range: must be 0.00014504 to 145.03, received 0',
    ],
    [
      [...circuit, '--temperature-uncertainty', '-1F'],
      '--temperature-uncertainty: uncertainty [F] out of range: must be 0 to 54, received -1',
    ],
    [[...circuit, '--leak', '0g'], '--leak: loss [g] out of range: must be 0.001 to 10000000, received 0'],
    [
      [...circuit, '--leak', '5psig'],
      '--leak: cannot read "5psig": psig measures a gauge pressure; wanted: a mass a year',
    ],
    [[...circuit, '--time', '721h'], '--time: time [h] out of range: must be 0.016667 to 720, received 721'],
    [[...circuit, '--time', '-5min'], '--time: time [min] out of range'],
    [
      [...circuit, '--from', '0micron'],
      '--from: pressure at valve-off [micron] out of range: must be 1 to 20000, received 0',
    ],
    [[...circuit, '--vacuum-noise', '1'], '--vacuum-noise: cannot read "1": it needs its per cent sign'],
    [[...circuit, '--reading-every', '1h'], '--reading-every: time between readings [h] out of range'],
    [[...circuit, '--altitude', '50000ft'], '--altitude: altitude [ft] out of range'],
    [[...circuit, '--test', 'both'], "argument 'both' is invalid"],
    [[...circuit, '--leak', '1\u001b[31mg'], 'cannot read "1\\u{1b}[31mg"'],
  ] as const)('refuses %j in one line', (args, says) => {
    const result = run(...args);
    expect(result.stdout).toBe('');
    expect(result.stderr).toMatch(/^dryhold: [^\n]+\n$/);
    expect(result.stderr).toContain(says);
    expect(result.status).toBe(2);
  });
});
