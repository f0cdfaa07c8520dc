import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { FleetReport } from '../../src/pages/fleet-data.ts';
import { crews } from '../../src/simulate/crews.ts';
import { technicians } from '../../src/simulate/technicians.ts';
import { fleetReport } from '../../src/steps/fleet-report.ts';
import { isPlanted } from './planted-habits.ts';
import { simulatedStore } from './simulated-store.ts';

// Who stands out, beside what was planted in people and crews.

const folder = mkdtempSync(join(tmpdir(), 'dryhold-fleet-truth-'));
afterAll(() => rmSync(folder, { recursive: true }));

async function reportOf(seed: number): Promise<FleetReport> {
  const store = await simulatedStore(folder, { jobs: 400, seed });
  try {
    return await fleetReport(store, { codes: false, rates: [] });
  } finally {
    await store.close();
  }
}

const leaky = crews.filter(({ hoseLeak }) => hoseLeak !== undefined);
const isIn = (technicianId: string, crewId: string): boolean =>
  technicians.some((each) => each.technicianId === technicianId && [each.crewId, each.change?.crewId].includes(crewId));

test('the leaking hose is planted in one crew', () => {
  expect(leaky.map(({ hoseSetId }) => hoseSetId)).toEqual(['hose-2']);
});

describe.each([1, 2])('a shop of 400 jobs, seed %d', (seed) => {
  let standingOut: FleetReport['standingOut'];
  beforeAll(async () => {
    ({ standingOut } = await reportOf(seed));
  }, 120_000);
  const of = (skillId: string, unitId: string) =>
    standingOut.find(({ skill, unit }) => skill.id === skillId && unit.id === unitId);

  test.each([
    ['charge', 't02'],
    ['pressure-test', 't07'],
  ])('%s of %s, who does it wrong whatever the gear, is laid to the person', (skillId, technicianId) => {
    expect(isPlanted(technicianId, skillId)).toBe(true);
    expect(of(skillId, technicianId)?.laidTo.verdict).toBe('people');
    expect(of(skillId, technicianId)?.laidTo.people.map(({ id }) => id)).toEqual([technicianId]);
  });

  test('evacuation of t05, who cuts the hold short, is laid to the person and not to a gauge that nobody else has', () => {
    expect(isPlanted('t05', 'evacuation')).toBe(true);
    const one = of('evacuation', 't05');
    expect(one?.checks[0].checkId).toBe('hold-short');
    expect(one?.laidTo).toMatchObject({ verdict: 'people', people: [{ id: 't05' }] });
    // No gear makes anybody cut a hold short.
    expect(one?.laidTo.shared.filter(({ kind }) => kind !== 'crew')).toEqual([]);
  });

  test.each(leaky)('the leaking hose of $crewId is laid to what is shared', ({ crewId, hoseSetId, pumpId }) => {
    for (const id of [crewId, hoseSetId]) {
      const laidTo = of('rise', id)?.laidTo;
      expect([id, laidTo?.verdict]).toEqual([id, 'shared']);
      expect(laidTo?.shared.map((unit) => unit.id)).toContain(hoseSetId);
    }
    expect(of('rise', hoseSetId)?.checks[0].checkId).toBe('leaking');
    // A pump cannot make a system leak, though it was always there.
    expect(of('rise', pumpId)).toBeUndefined();
    expect(of('rise', crewId)?.laidTo.shared.map((unit) => unit.id)).not.toContain(pumpId);
  });

  test.each(leaky)('the leaking hose of $crewId is laid to none of its people', ({ crewId }) => {
    const laid = standingOut.filter(
      ({ skill, laidTo }) => skill.id === 'rise' && ['people', 'both'].includes(laidTo.verdict),
    );
    expect(laid.flatMap(({ laidTo }) => laidTo.people).filter(({ id }) => isIn(id, crewId))).toEqual([]);
  });

  test('nothing is laid to a person in whom it was not planted', () => {
    const laid = standingOut.filter(({ laidTo }) => ['people', 'both'].includes(laidTo.verdict));
    expect(laid.length).toBeGreaterThan(2);
    const unplanted = laid.flatMap(({ skill, laidTo }) =>
      laidTo.people.filter(({ id }) => !isPlanted(id, skill.id)).map(({ id }) => [id, skill.id]),
    );
    expect(unplanted).toEqual([]);
  });

  test('the surest come first, and none is less sure than is said of all', () => {
    for (const { falseDiscoveryShare } of standingOut) expect(falseDiscoveryShare).toBeLessThanOrEqual(0.04);
    const chances = standingOut.map(({ rate }) => rate.chance ?? Number.NaN);
    expect(chances).toEqual(chances.toSorted((a, b) => a - b));
  });
});
