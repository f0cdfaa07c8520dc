import { describe, expect, test } from 'vitest';
import { testedVolume } from '../../src/facts/tested-volume.ts';

/** 10 m of 1/4 and 3/8 in: 0.0201 L/m and 0.0490 L/m, bores of 0.19 and 0.311 in (ASTM B280). */
const line = { line_length_m: 10, liquid_line_od_mm: 6.35, suction_line_od_mm: 9.52 };
const lineL = 10 * (Math.PI / 4) * ((0.19 * 25.4) ** 2 + (0.311 * 25.4) ** 2) * 1e-3;
const install = { work_type: 'install', rated_cooling_w: 4000, ...line } as const;

describe('testedVolume', () => {
  test('the recorded tested volume goes before everything', () => {
    expect(testedVolume({ job: { ...install, tested_volume_l: 3, circuit_volume_l: 8 } })).toEqual({
      volumeL: 3,
      lowL: 2.7,
      highL: 3.3,
      basis: 'tested',
    });
  });

  test('the recorded circuit counts where all of it was evacuated', () => {
    const job = { ...install, circuit_volume_l: 8, charge_basis: 'empty' } as const;
    expect(testedVolume({ job })).toEqual({ volumeL: 8, lowL: 7.2, highL: 8.8, basis: 'circuit' });
    expect(testedVolume({ job: { ...job, charge_basis: undefined, work_type: 'repair' } })?.basis).toBe('circuit');
  });

  test('on a pre-charged install the lines and the indoor coil are what was tested, not the circuit', () => {
    const found = testedVolume({ job: { ...install, circuit_volume_l: 8 } });
    expect(found?.basis).toBe('estimated');
    // 0.25 L/kW, common practice.
    expect(found?.volumeL).toBeCloseTo(lineL + 1, 9);
    expect(found?.highL).toBeCloseTo(lineL + 1 + Math.hypot(0.1 * lineL, 0.4), 9);
    expect(testedVolume({ job: { ...install, charge_basis: 'pre-charged', work_type: 'repair' } })).toEqual(found);
    expect(testedVolume({ job: { ...install, work_type: 'replace' } })).toEqual(found);
  });

  test('the outdoor unit adds up where it was evacuated too', () => {
    const found = testedVolume({ job: { ...install, work_type: 'repair' } });
    expect(found?.volumeL).toBeCloseTo(lineL + 1 + 0.6 * 4 + 0.8, 9);
    expect(found?.highL).toBeCloseTo(lineL + 4.2 + Math.hypot(0.1 * lineL, 0.4, 0.4 * 3.2), 9);
  });

  test('where nothing tells whether it was, the interval spans both', () => {
    const job = { ...install, work_type: undefined };
    const [shut, evacuated, either] = [
      testedVolume({ job: install }),
      testedVolume({ job: { ...job, work_type: 'repair' } }),
      testedVolume({ job }),
    ];
    expect(either).toMatchObject({ lowL: shut?.lowL, highL: evacuated?.highL, basis: 'estimated' });
    expect(either?.volumeL).toBeGreaterThan(shut?.volumeL ?? 0);
    expect(either?.volumeL).toBeLessThan(evacuated?.volumeL ?? 0);
    const bare = testedVolume({ job: { circuit_volume_l: 8 } });
    expect(bare).toMatchObject({ lowL: 1.6, highL: 8.8, basis: 'estimated' });
  });

  test('several line sets add up; what one lacks the job’s columns give', () => {
    const sets = [
      { job_id: 'a', line_set_id: '1', ...line },
      { job_id: 'a', line_set_id: '2', line_length_m: 5 },
    ];
    const found = testedVolume({ job: install, lineSets: sets });
    expect(found?.volumeL).toBeCloseTo(1.5 * lineL + 1, 9);
    const lacking = [...sets, { job_id: 'a', line_set_id: '3' }];
    expect(testedVolume({ job: install, lineSets: lacking })).toBeUndefined();
  });

  test('a tube whose size is not in the table is taken with a wall of 0.9 mm', () => {
    const job = { ...install, liquid_line_od_mm: 6, suction_line_od_mm: 10 };
    expect(testedVolume({ job })?.volumeL).toBeCloseTo(1 + ((10 * Math.PI) / 4) * (4.2 ** 2 + 8.2 ** 2) * 1e-3, 9);
  });

  test('of a pre-charged install without lines the circuit still gives a share', () => {
    expect(testedVolume({ job: { work_type: 'install', circuit_volume_l: 10 } })).toEqual({
      volumeL: 4.5,
      lowL: 2,
      highL: 8,
      basis: 'estimated',
    });
  });

  test('too little recorded: none', () => {
    expect(testedVolume({})).toBeUndefined();
    expect(testedVolume({ job: {} })).toBeUndefined();
    expect(testedVolume({ job: { ...install, rated_cooling_w: undefined } })).toBeUndefined();
    expect(testedVolume({ job: { ...install, suction_line_od_mm: undefined } })).toBeUndefined();
    expect(testedVolume({ job: { tested_volume_l: 0, circuit_volume_l: 0, rated_cooling_w: 0 } })).toBeUndefined();
  });
});
