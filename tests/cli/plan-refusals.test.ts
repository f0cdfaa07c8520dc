import { describe, expect, test, vi } from 'vitest';
import { dryhold } from './dryhold-process.ts';

// Every run is a process of its own, and machines may be busy.
vi.setConfig({ testTimeout: 120_000 });

const circuit = ['--volume', '5L', '--refrigerant', 'R-410A'];

describe('dryhold plan', () => {
  test.each([
    [['--refrigerant', 'R-410A'], 'how much is tested? --volume, or --line, --liquid-line,'],
    [[...circuit, '--line', '15m'], 'either --volume, or what it is estimated from (--line): not both'],
    [
      [...circuit, '--with-outdoor-unit'],
      'either --volume, or what it is estimated from (--with-outdoor-unit): not both',
    ],
    [
      ['--line', '15m', '--cooling', '8kW', '--refrigerant', 'r32'],
      'to estimate the volume, --liquid-line and --suction-line must be given too',
    ],
    [
      ['--line', '15m', '--liquid-line', '3/8', '--suction-line', '3/4in', '--cooling', '8kW', '--refrigerant', 'r32'],
      '--liquid-line: cannot read "3/8": ',
    ],
    [
      ['--line', '15m', '--liquid-line', '3/8in', '--suction-line', '3/4in', '--cooling', '1W', '--refrigerant', 'r32'],
      '--cooling: cooling [W] out of range: must be 100 to 5000000, received 1',
    ],
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
    [[...circuit, '--pressure', '28bar'], '"bar" says neither gauge nor absolute, write 28barg or 28bara'],
    [[...circuit, '--pressure', '2800 kPa'], '"kPa" says neither gauge nor absolute, write 2800kPag or 2800kPaa'],
    [[...circuit, '--pressure', '2.8MPa'], '"MPa" says neither gauge nor absolute, write 28barg or 28bara'],
    [[...circuit, '--pressure', '10psia'], '--pressure: must be above the air at the site, by 1.5 psi to 2900 psi'],
    [[...circuit, '--pressure', '20 inHg vacuum'], 'received "20 inHg vacuum"'],
    [
      [...circuit, '--pressure-step', '0psi'],
      '--pressure-step: step [psi] out of range: must be 0.00014504 to 145.03, received 0',
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
    const result = dryhold(['plan', ...args]);
    expect(result.stdout).toBe('');
    expect(result.stderr).toMatch(/^dryhold: [^\n]+\n$/);
    expect(result.stderr).toContain(says);
    expect(result.status).toBe(2);
  });
});
