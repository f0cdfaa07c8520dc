import { describe, expect, test } from 'vitest';
import type { NamedUnit, UnitStandingOut } from '../../src/pages/fleet-data.ts';
import {
  checkWords,
  excessText,
  isAnybodyHeld,
  laidToText,
  mostText,
  unitText,
  withoutRepeats,
} from '../../src/pages/standing-out-text.ts';

const unit = (kind: NamedUnit['kind'], id: string): NamedUnit => ({ kind, id, name: id });
const [ada, ben, cleo] = ['Ada', 'Ben', 'Cleo'].map((name) => unit('technician', name));
const [north, pump, hose, gauge] = [
  unit('crew', 'north'),
  unit('pump', '1'),
  unit('hose-set', 'H-2'),
  unit('gauge', 'gauge-3'),
];

type Verdict = UnitStandingOut['laidTo']['verdict'];

/** Somebody or something that stands out, with what it is laid to. */
function standing(
  of: NamedUnit,
  verdict: Verdict,
  people: NamedUnit[],
  shared: NamedUnit[],
  own: Partial<UnitStandingOut> = {},
): UnitStandingOut {
  return {
    unit: of,
    skill: { id: 'rise', title: 'rise test', counts: 'a rise that was too much' },
    rate: {
      found: 1234,
      jobs: 2468,
      expected: 9.94,
      byChance: 8,
      variance: 8.5,
      notEvaluated: 0,
      missing: 0,
      share: 0.5,
      low: 0.344,
      high: 0.656,
      shrunken: null,
      ratio: 2,
      funnel: null,
      widened: null,
      own: null,
      chance: 0.001,
    },
    falseDiscoveryShare: 0.01,
    laidTo: { verdict, people, shared },
    checks: [],
    ...own,
  };
}

const space = '\u00a0';

test('unitText says what it is once', () => {
  expect([ada, north, pump, hose, gauge, unit('crew', 'Crew Elm'), unit('fleet', 'all')].map(unitText)).toEqual([
    'Ada',
    'crew north',
    'pump 1',
    'hose set H-2',
    'gauge-3',
    'Crew Elm',
    'all',
  ]);
});

describe('excessText', () => {
  test('counts, interval and what was to be expected', () => {
    expect(excessText(standing(ada, 'people', [ada], []))).toBe(
      `1${space}234 of 2${space}468 judged jobs (50%, 34–66%) had a rise that was too much; of such jobs 9.9 were to be expected.`,
    );
  });

  test('from ten on what is expected is whole', () => {
    const { rate, ...one } = standing(ada, 'people', [ada], []);
    const text = (expected: number, jobs = 2) => excessText({ ...one, rate: { ...rate, jobs, expected } });
    expect(text(9.951)).toContain('of such jobs 10 were');
    expect(text(1234.4)).toContain(`of such jobs 1${space}234 were`);
    expect(text(0.04, 1)).toMatch(/of 1 judged job \(.*of such jobs 0\.0 were/);
  });
});

test('mostText tells of three checks at most', () => {
  const share = (checkId: string) => ({ checkId, unit: { found: 3, jobs: 4 }, all: { found: 10, jobs: 80 } });
  const many = { checkId: 'wet', unit: { found: 1000, jobs: 2000 }, all: { found: 5000, jobs: 20_000 } };
  expect(mostText(standing(ada, 'people', [ada], [], { checks: [many] }), String)).toBe(
    `Most: wet 1${space}000 of 2${space}000 (50%, all 25%).`,
  );
  const of = (...ids: string[]) => mostText(standing(ada, 'people', [ada], [], { checks: ids.map(share) }), checkWords);
  expect(of()).toBe('');
  expect(of('wet')).toBe('Most: wet 3 of 4 (75%, all 13%).');
  expect(of('rise-over-limit')).toBe('Most: rise over limit 3 of 4 (75%, all 13%).');
  expect(of('a', 'b', 'c', 'd')).toBe(
    `Most: ${['a', 'b', 'c'].map((id) => `${id} 3 of 4 (75%, all 13%)`).join('; ')}.`,
  );
});

describe('laidToText', () => {
  const text = (of: NamedUnit, verdict: Verdict, people: NamedUnit[], shared: NamedUnit[]) =>
    laidToText(standing(of, verdict, people, shared));

  test.each<[string, NamedUnit, Verdict, NamedUnit[], NamedUnit[], string[]]>([
    [
      'a person, beside what is shared',
      ada,
      'people',
      [ada],
      [north, pump],
      ['Laid to Ada:', 'not with crew north or pump 1', 'Ride along'],
    ],
    ['a person alone', ada, 'people', [ada], [], ['Laid to Ada.', 'Ride along']],
    [
      'a crew whose people it is',
      north,
      'people',
      [ada, ben],
      [north],
      ['Laid to Ada and Ben,', 'Ride along with them'],
    ],
    [
      'one thing that is shared',
      hose,
      'shared',
      [ada, ben],
      [hose],
      ['Laid to what is shared, not to people', 'hose set H-2 explains', 'Swap it,'],
    ],
    [
      'things that never part',
      north,
      'shared',
      [ada, ben],
      [north, pump, hose],
      ['Laid to what is shared, not to people', 'crew north, pump 1 or hose set H-2', 'swap one at a time'],
    ],
    [
      'what no gear could cause',
      north,
      'shared',
      [ada, ben],
      [north],
      ['Laid to what crew north shares, not to single people', 'its habits'],
    ],
    [
      'both',
      north,
      'both',
      [ada],
      [hose],
      ['in part to Ada, in part to hose set H-2', 'what is shared first, then ride along'],
    ],
    [
      'a person who cannot be told from the gear',
      ada,
      'not-separable',
      [ada],
      [gauge],
      ['Not separable', 'Ada and gauge-3 apart', 'Swap the gear for some thirty jobs'],
    ],
    [
      'a crew that cannot be told from its people',
      north,
      'not-separable',
      [ada, ben, cleo],
      [north],
      ['Not separable', 'crew north and Ada, Ben or Cleo apart', 'Swap crews for some thirty jobs'],
    ],
    [
      'crew and gear that cannot be told from people',
      pump,
      'not-separable',
      [ada],
      [north, pump],
      ['Not separable', 'crew north or pump 1 and Ada apart', 'Swap gear or crews for some thirty jobs'],
    ],
    [
      'gear of which no job names who used it',
      gauge,
      'not-separable',
      [],
      [gauge],
      ['Not separable from people', 'Swap the gear for ten jobs'],
    ],
  ])('%s', (_, of, verdict, people, shared, says) => {
    const told = text(of, verdict, people, shared);
    for (const part of says) expect(told).toContain(part);
    const named = [ada, ben, cleo, north, pump, hose, gauge].filter((one) => told.includes(unitText(one)));
    expect(named.filter((one) => ![of, ...people, ...shared].includes(one))).toEqual([]);
    expect(told).toMatch(/^[A-Z].*\.$/);
  });

  test('of many names the first five, and how many more', () => {
    const people = Array.from({ length: 8 }, (_, at) => unit('technician', `P${at + 1}`));
    expect(text(north, 'people', people, [north])).toContain('Laid to P1, P2, P3, P4, P5 and 3 more,');
    expect(text(north, 'people', people.slice(0, 6), [north])).toContain('Laid to P1, P2, P3, P4, P5 and P6,');
  });
});

describe('withoutRepeats', () => {
  const kept = (...all: UnitStandingOut[]) => withoutRepeats(all).map((one) => one.unit.id);

  test('a crew laid to people who stand out themselves goes; laid to others it stays', () => {
    const crew = standing(north, 'people', [ada], [north]);
    expect(kept(crew, standing(ada, 'people', [ada], [north]))).toEqual(['Ada']);
    expect(kept(crew, standing(ben, 'people', [ben], [north]))).toEqual(['north', 'Ben']);
    expect(kept(standing(north, 'people', [ada, ben], [north]), standing(ada, 'people', [ada], []))).toEqual([
      'north',
      'Ada',
    ]);
  });

  test('whatever has an excess that is laid to the same as its crew goes, and so do its people', () => {
    const shared = [north, pump, hose];
    const all = [hose, ada, pump, north, gauge].map((of) => standing(of, 'shared', [ada, ben], shared));
    expect(kept(...all)).toEqual(['north']);
  });

  test('people laid to something that nothing else tells of stay', () => {
    const person = standing(ada, 'shared', [ada], [hose]);
    expect(kept(person)).toEqual(['Ada']);
    expect(kept(standing(pump, 'shared', [ben, cleo], [pump]), person)).toEqual(['1', 'Ada']);
    // Part of what a person's excess is laid to is not all of it.
    expect(kept(standing(pump, 'shared', [ben], [pump]), standing(ada, 'shared', [ada], [pump, hose]))).toEqual([
      '1',
      'Ada',
    ]);
    expect(kept(standing(hose, 'shared', [ada, ben], [pump, hose]), person)).toEqual(['H-2']);
  });

  test('people whose own it is stay, in part or whole, whatever their crew has', () => {
    const crew = standing(north, 'shared', [ada, ben], [north, hose]);
    for (const verdict of ['people', 'both', 'not-separable'] as const)
      expect(kept(crew, standing(ada, verdict, [ada], [hose]))).toContain('Ada');
  });

  test('gear that a person cannot be told from goes', () => {
    const person = standing(ada, 'not-separable', [ada], [gauge]);
    expect(kept(standing(gauge, 'not-separable', [ada], [gauge]), person)).toEqual(['Ada']);
    expect(kept(standing(pump, 'not-separable', [ada], [pump]), person)).toEqual(['1', 'Ada']);
  });

  test('gear stays beside a person whose own it is', () => {
    expect(kept(standing(ada, 'people', [ada], [pump]), standing(pump, 'shared', [ben, cleo], [pump]))).toEqual([
      'Ada',
      '1',
    ]);
  });

  test('what is said of another skill is no repeat', () => {
    const skill = { id: 'charge', title: 'charge', counts: 'a doubtful charge' };
    const crew = standing(north, 'people', [ada], [north], { skill });
    expect(kept(crew, standing(ada, 'people', [ada], [north]))).toEqual(['north', 'Ada']);
  });

  test('keeps the order, whoever is told of first', () => {
    expect(
      kept(
        standing(pump, 'shared', [ada], [pump]),
        standing(cleo, 'people', [cleo], []),
        standing(ada, 'people', [ada], []),
      ),
    ).toEqual(['1', 'Cleo', 'Ada']);
    expect(kept()).toEqual([]);
  });
});

test('nobody is held against others where no comparison was made', () => {
  expect(isAnybodyHeld({ tested: { people: 0, shared: 0 } })).toBe(false);
  expect(isAnybodyHeld({ tested: { people: 0, shared: 2 } })).toBe(true);
  expect(isAnybodyHeld({ tested: { people: 7, shared: 0 } })).toBe(true);
});
