import { describe, expect, test } from 'vitest';
import type { StoryMaterial } from '../../src/pages/story-material.ts';
import { togetherStory } from '../../src/pages/together-story.ts';
import type { Facts } from '../../src/records/tables/facts.ts';

function told(facts: Partial<Facts>, units: StoryMaterial['units'] = 'ip'): string[] {
  const limits = { pullTargetPa: 66.66 };
  return togetherStory({
    facts,
    job: undefined,
    limits,
    blindIsSaid: false,
    pressureBlindIsSaid: false,
    chargeIsOff: false,
    units,
  });
}

const both: Partial<Facts> = {
  tested_volume_l: 4,
  ruled_out_low_kg_per_year: 0.1,
  ruled_out_high_kg_per_year: 1.4,
  ruled_out_by: 'both',
  tests_disagree: false,
};
const standing = '(95 %; standing at 70 °F (21 °C), as an order of magnitude)';
const blind = 'A joint that opens only under pressure does not show in a rise test.';

describe('what both tests say together', () => {
  test('how large a leak they rule out, and which of them does', () => {
    expect(told(both)).toEqual([
      `Together the pressure test and the rise test rule out a leak that would lose more than 3.5 oz to 3.1 lb a year, by the sort of its opening ${standing}. Each of them does so for some sorts of opening. ${blind}`,
    ]);
    expect(told(both, 'si')[0]).toContain('more than 100 g to 1.4 kg a year');
    expect(told({ ...both, ruled_out_by: 'rise-test' })[0]).toContain(
      `${standing}. The figure is that of the rise test. ${blind}`,
    );
    // What a vacuum is blind to does not matter where the pressure test carries it.
    expect(told({ ...both, ruled_out_by: 'pressure-test' })[0]).toMatch(/The figure is that of the pressure test\.$/);
  });

  test('of one test alone, what that one rules out, unless it shows a leak whose size is told already', () => {
    const { tests_disagree: _, ...alone } = both;
    const pressure = { ...alone, ruled_out_by: 'pressure-test' } as const;
    expect(told(pressure)[0]).toMatch(
      /^By itself the pressure test rules out a leak that would lose more than 3.5 oz to 3.1 lb a year/,
    );
    expect(told({ ...alone, ruled_out_by: 'rise-test' })[0]).toMatch(
      /^By itself the rise test rules out .* rise test\.$/,
    );
    expect(told({ ...pressure, pressure_drop_low_pa: 900 })).toEqual([]);
    expect(told({ ...alone, ruled_out_by: 'rise-test', leak_low_pa_per_s: 0.001 })).toEqual([]);
    expect(told({ ...both, pressure_drop_low_pa: 900 })).toHaveLength(1);
  });

  test('where that is as much as the charge, they rule out little or nothing', () => {
    expect(told({ ...both, charge_target_kg: 1 })[0]).toContain(
      `rule out a leak that would lose more than 3.5 oz a year at best; through another sort of opening it may lose the whole charge within a year or far sooner ${standing}`,
    );
    expect(told({ ...both, charge_target_kg: 0.05 })).toEqual([
      'Together the pressure test and the rise test do not rule out a leak that would lose the whole charge within a year or far sooner.',
    ]);
    const { tests_disagree: _, ...alone } = both;
    expect(told({ ...alone, ruled_out_by: 'rise-test', charge_target_kg: 0.05 })).toEqual([
      'By itself the rise test does not rule out a leak that would lose the whole charge within a year or far sooner.',
    ]);
  });

  test('where one of them points to a leak, they say how large it is at most', () => {
    const shown = { ...both, pressure_drop_low_pa: 900 };
    expect(told(shown)[0]).toContain('leave room for a leak of no more than');
    expect(told({ ...shown, charge_target_kg: 0.05 })[0]).toContain(
      'leave room for a leak that would lose the whole charge',
    );
  });

  test.each<[string, Partial<Facts>, string, string]>([
    [
      'the pressure test',
      { pressure_drop_low_pa: 900, leak_low_pa_per_s: 0 },
      'the pressure test points to a leak',
      'was mended between',
    ],
    [
      'the rise test',
      { pressure_drop_low_pa: -50, leak_low_pa_per_s: 0.01 },
      'the rise test points to a leak',
      'moisture or outgassing',
    ],
    ['both', { pressure_drop_low_pa: 900, leak_low_pa_per_s: 0.01 }, 'both point to a leak', 'opened or was mended'],
  ])('a contradiction, where %s show a leak, comes with what can lie behind it', (_, facts, who, why) => {
    const [story = '', ...more] = told({ ...both, ...facts, tests_disagree: true });
    expect(more).toEqual([]);
    expect(story).toMatch(/^The two tests contradict each other: /);
    expect(story).toContain(who);
    expect(story).toContain(why);
    expect(story).toContain('hose');
    expect(story).not.toContain('a year');
  });

  test('nothing where nothing bounds a leak', () => {
    expect(told({})).toEqual([]);
    expect(told({ tests_disagree: false })).toEqual([]);
  });

  test('never says that a system is safe, nor anything undefined', () => {
    for (const charge_target_kg of [undefined, 0.05, 1, 9])
      for (const ruled_out_by of ['both', 'rise-test', 'pressure-test'] as const)
        expect(told({ ...both, charge_target_kg, ruled_out_by }).join(' ')).not.toMatch(/safe|tight|undefined|NaN/);
  });
});
