import { describe, expect, test, vi } from 'vitest';
import { bash, dryhold, temporaryFolder } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const folder = temporaryFolder();
const run = (...args: string[]) => dryhold(['saturation', ...args], { cwd: folder.path });
const answers = (...args: string[]) => {
  const result = run(...args, '--json');
  expect([result.stderr, result.status]).toEqual(['', 0]);
  return JSON.parse(result.stdout) as Record<string, number>[];
};

// CoolProp 8.0: R-410A at 40 °F boils at 118.79 psig and condenses at 118.35; R-454B at 100 °F at 303.27 and 291.90.
describe('dryhold saturation', () => {
  test('shows a person both sides of the curve, in the units of the trade', () => {
    const { stdout, stderr, status } = run('R-410A', '40F', '118.79psig');
    expect([stderr, status]).toEqual(['', 0]);
    expect(stdout).toMatch(/^40F +118\.8 psig +118\.4 psig +71\.9 lb\/ft³ +2\.20 lb\/ft³$/m);
    expect(stdout).toMatch(/^118\.79psig +40\.0 °F +40\.2 °F /m);
    expect(stdout).toContain('Gauge pressures count from 14.70 psia, the standard atmosphere at sea level');
    expect(stdout).toContain('R-32 (Tillner-Roth, Yokozeki 1997), R-125 (Lemmon, Jacobsen 2005)');
    expect(stdout.split('\n').every((line) => line.length <= 100)).toBe(true);
  });

  test('shows the same in SI, where pressures are absolute', () => {
    const { stdout } = run('r454b', '37.7778C', '-10C', '--units', 'si');
    expect(stdout).toMatch(/^37\.7778C +21\.92 bar +21\.14 bar /m);
    expect(stdout).toMatch(/^-10C +\d\.\d\d bar /m);
    expect(stdout).not.toContain('Gauge pressures');
    // A gauge pressure rests on the air of the site whatever it is shown in.
    const gauge = run('r454b', '118psig', '--units', 'si', '--altitude', '5280ft').stdout;
    expect(gauge).toMatch(/^118psig = 8\.97 bar /m);
    expect(gauge).toMatch(
      /Gauge pressures count from 0\.8343 bar, the standard atmosphere at 5280ft\. Pressures are shown\s+absolute\./,
    );
  });

  test('takes a number and a unit that the shell has taken apart', () => {
    const list = answers('R-410A', '118', 'psig', '40', 'F', '20', 'inHg', 'vacuum', '-5C');
    expect(list.map((answer) => answer.given)).toEqual(['118 psig', '40 F', '20 inHg vacuum', '-5C']);
  });

  test('answers a temperature with the five columns that other programs rely on', () => {
    const [answer] = answers('R-410A', '40F');
    expect(Object.keys(answer)).toEqual([
      'given',
      'temperature_k',
      'bubble_pa',
      'dew_pa',
      'liquid_density_kg_per_m3',
      'vapour_density_kg_per_m3',
    ]);
    expect(answer.temperature_k).toBeCloseTo(277.5944, 4);
    expect(answer.bubble_pa / 6894.757293168 - 14.696).toBeCloseTo(118.79, 2);
    expect(answer.dew_pa / 6894.757293168 - 14.696).toBeCloseTo(118.35, 2);
  });

  test('answers a pressure with bubble and dew point too; its temperature is their mean', () => {
    const [answer] = answers('R-454B', '303.27psig', '--barometer', '14.696 psia');
    expect(answer.bubble_k).toBeCloseTo(310.928, 2);
    expect(answer.dew_k).toBeGreaterThan(answer.bubble_k + 1);
    expect(answer.temperature_k).toBeCloseTo((answer.bubble_k + answer.dew_k) / 2, 10);
    expect([answer.bubble_pa, answer.dew_pa]).toEqual([answer.dew_pa, answer.bubble_pa]);
  });

  test('takes values that begin with a minus without a --, before and after options', () => {
    const given = ['-32.5C', '-4F', '-5 psig', '0F'];
    const list = answers('R-32', given[0], '--quiet', given[1], given[2], given[3]);
    expect(list.map((answer) => answer.given)).toEqual(given);
    expect(list[0].temperature_k).toBeCloseTo(240.65, 9);
    expect(list[1].temperature_k).toBeCloseTo(253.15, 9);
  });

  test('gauge pressures count from the site’s air', () => {
    const [sea] = answers('R-410A', '100psig');
    const [high] = answers('R-410A', '100psig', '--altitude', '5000 ft');
    const [absolute] = answers('R-410A', '100psia');
    expect(sea.bubble_pa - absolute.bubble_pa).toBeCloseTo(101325, 3);
    // 12.23 psia at 5000 ft in the standard atmosphere (ISO 2533).
    expect((high.bubble_pa - absolute.bubble_pa) / 6894.757).toBeCloseTo(12.23, 2);
    const [read] = answers('R-410A', '100psig', '--altitude', '5000 ft', '--barometer', '24.9 inHg');
    expect(read.bubble_pa - absolute.bubble_pa).toBeCloseTo(24.9 * 3386.389, 0);
  });

  test('a blend by its composition is the blend by its name', () => {
    const [named] = answers('R-407C', '25C');
    const [composed] = answers('r32/125/134a (23/25/52)', '25C');
    expect(composed).toEqual(named);
  });

  test('says where nothing is known of how two fluids mix, in words and in JSON', () => {
    const shown = run('R-22/125 (30/70)', '40F', '--quiet');
    expect(shown.stdout).toContain('no data on how R-22 with R-125 mix');
    const [answer] = answers('R-22/125 (30/70)', '40F', '--quiet') as unknown as { estimated_pairs: string[] }[];
    expect(answer.estimated_pairs).toEqual(['R-22 with R-125']);
  });

  test('knows at what temperature water boils in a vacuum', () => {
    const { stdout } = run('water', '500 micron', '70F');
    expect(stdout).toMatch(/^500 micron +−12\.1 °F /m);
    expect(stdout).toMatch(/^70F +18\u00a0790 µm /m);
    expect(stdout).not.toContain('psig');
  });

  test('beyond the critical region there is no number, and the status says so', () => {
    const shown = run('R-410A', '200F', '20F');
    expect(shown.status).toBe(1);
    expect(shown.stdout).toMatch(/^200F +beyond the critical region: never liquid$/m);
    expect(shown.stdout.replace(/\s+/g, ' ')).toMatch(
      /begins, as far as the equations reach, at −149\.1 °F and .*, and ends in the critical region at 160\.\d °F and 69\d\.\d psig/,
    );
    const json = run('R-410A', '900psig', '250micron', '--json');
    expect(json.status).toBe(1);
    expect((JSON.parse(json.stdout) as { problem: string }[]).map(({ problem }) => problem)).toEqual([
      'beyond the critical region: never boils',
      'lower than the equations reach',
    ]);
    for (const answer of JSON.parse(json.stdout) as Record<string, unknown>[]) {
      expect([answer.bubble_k, answer.dew_k, answer.temperature_k, answer.liquid_density_kg_per_m3]).toEqual([
        null,
        null,
        null,
        null,
      ]);
    }
  });

  test('one value without an answer takes nothing from the others: a blend that parts in two in the cold', () => {
    const { stdout, stderr, status } = run('R-32/290 (50/50)', '40F', '-60F', '300F');
    expect([stderr, status]).toEqual(['', 1]);
    // CoolProp 8.0: 156.2 and 125.5 psig.
    expect(stdout).toMatch(/^40F +156\.2 psig +125\.5 psig /m);
    expect(stdout).toMatch(/^-60F +the liquid parts in two here$/m);
    expect(stdout).toMatch(/^300F +beyond the critical region: never liquid$/m);
    expect(stdout).toContain('known less well');
  });

  test('the lowest pressure is that of the boiling liquid', () => {
    expect(run('R-407C', '10000micron').stdout).toMatch(/^10000micron +lower than the equations reach$/m);
  });

  test.each([
    [['R-410A', '40'], 'cannot read "40": no unit'],
    [['R-410A', '118psi'], '"psi" says neither gauge nor absolute, write 118psig or 118psia'],
    [['R-410A', '2,5 bar'], 'write 2.5 bar'],
    [['R-410A', '-500F'], 'must be above -459.67, absolute zero'],
    [['R-410A', '-20psig'], 'gauge pressure [psig] out of range: must be at least -14.69'],
    [['R-410A', '40F', '--altitud', '5'], 'unknown option "--altitud"'],
    [['R-410A', '-x'], 'unknown option "-x"'],
    [
      ['R-410A', '40F', '--altitude', '50000 ft'],
      'altitude [ft] out of range: must be -6561.6 to 36089, received 50000',
    ],
    [['R-410A', '40F', '--barometer', '3 psia'], 'barometer [psia] out of range'],
    [['R-11', '40F'], 'no equation of state for "R-11"; known: R-22, R-32'],
    [['R-32/125 (50/49)', '40F'], 'the shares add up to 99 %, not 100 %'],
    [['40F', 'R-410A'], 'the refrigerant comes first'],
    [['R-410\u001b[31mA', '40F'], 'no equation of state for "R-410\\u{1b}[31mA"'],
    [['R-32/32 (50/50)', '40F'], 'as many different components as shares'],
    [['R-410A'], "missing required argument 'value'"],
    [['R-410A', '40F', '--units', 'q\u001b[31m'], "'q\\u{1b}[31m' is invalid"],
  ] as const)('refuses %j in one line', (args, says) => {
    const result = run(...args);
    expect(result.stdout).toBe('');
    expect(result.stderr).toMatch(/^dryhold: [^\n]+\n$/);
    expect(result.stderr).toContain(says);
    expect(result.status).toBe(2);
  });
});

test('an output that cannot be written is told in one line, with its status', () => {
  const { stderr, status } = bash('dryhold saturation R-410A 40F > /dev/full', folder.path);
  expect(stderr).toMatch(/^dryhold: the output: cannot be used: the disk is full\n$/);
  expect(status).toBe(3);
});
