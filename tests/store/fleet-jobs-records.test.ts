import { describe, expect, test } from 'vitest';
import { checks } from '../../src/checks/checks.ts';
import { asRecorded } from '../../src/checks/policy.ts';
import type { FleetJobs, Grouping } from '../../src/fleet/fleet-jobs.ts';
import { judge } from '../../src/steps/judge.ts';
import { type FleetJobsRead, readFleetJobs } from '../../src/store/fleet-jobs.ts';
import type { Store } from '../../src/store/store.ts';
import { ingestFiles, inStore, tempFolder } from './temp-store.ts';

const checkIds = checks.map(({ id }) => id);
const quoted = (cell: string) => `"${cell.replaceAll('"', '""')}"`;
const csv = (...rows: string[][]) => `${rows.map((row) => row.map(quoted).join(',')).join('\n')}\n`;

/** A store of these files, judged, and its jobs with the id of each. */
function read<Result>(
  files: Record<string, string>,
  work: (read: FleetJobsRead & { ids: string[] }, store: Store) => Promise<Result> | Result,
): Promise<Result> {
  return inStore(`${tempFolder()}/store`, async (store) => {
    await ingestFiles(store, files);
    await judge(store);
    return work({ ...(await readFleetJobs(store, 'as-recorded', checkIds)), ids: await placed(store) }, store);
  });
}

/** The job of each place. */
async function placed(store: Store): Promise<string[]> {
  const rows = await store.rows<{ place: number; job_id: string }>(
    'SELECT rowid AS place, job_id FROM temp.fleet_jobs',
  );
  return rows.toSorted((a, b) => a.place - b.place).map(({ job_id }) => job_id);
}

const unitsOf = (jobs: FleetJobs, grouping: Grouping) =>
  Array.from(jobs.units[grouping].of, (unit) => (unit < 0 ? unit : jobs.units[grouping].ids[unit]));

describe('the crew of a job', () => {
  const memberships = csv(
    ['technician_id', 'crew_id', 'from_on', 'to_on'],
    ['t', 'north', '2026-01-01', '2026-03-31'],
    ['t', 'south', '2026-06-01', ''],
  );
  const jobs = (...rows: string[][]) => csv(['job_id', 'started_at', 'technician_id', 'crew_id'], ...rows);

  test('is the one on record, else the one of that day by the clock of the shop', () => {
    const days: [string, string, string, string | -1][] = [
      ['before the first day', '2025-12-31T09:00:00-06:00', '', -1],
      ['on the first day', '2026-01-01T09:00:00-06:00', '', 'north'],
      ['on record', '2026-02-01T09:00:00-06:00', 'west', 'west'],
      ['late on the last day', '2026-03-31T23:30:00-06:00', '', 'north'],
      ['the day after', '2026-04-01T00:10:00-06:00', '', -1],
      ['on record, in no stay', '2026-05-01T09:00:00-06:00', 'west', 'west'],
      ['on the first day of another', '2026-06-01T00:00:00-06:00', '', 'south'],
      ['years later, in one without an end', '2031-06-01T00:00:00-06:00', '', 'south'],
    ];
    const files = {
      'memberships.csv': memberships,
      'jobs.csv': jobs(...days.map(([id, startedAt, crew]) => [id, startedAt, 't', crew])),
    };
    return read(files, ({ jobs: of, ids }) => {
      const crews = unitsOf(of, 'crew');
      expect(ids.map((id, at) => [id, crews[at]])).toEqual(days.map(([id, , , crew]) => [id, crew]));
    });
  });

  test('of nobody, and of somebody who is in none, is none', () =>
    read(
      {
        'memberships.csv': memberships,
        'jobs.csv': jobs(['a', '2026-02-01T09:00:00Z', '', ''], ['b', '2026-02-01T10:00:00Z', 'u', '']),
      },
      ({ jobs: of }) => {
        expect(unitsOf(of, 'crew')).toEqual([-1, -1]);
        expect(unitsOf(of, 'technician')).toEqual([-1, 'u']);
        expect(unitsOf(of, 'pump')).toEqual([-1, -1]);
      },
    ));
});

describe('levels', () => {
  const started = '2026-02-01T09:00:00Z';

  test('of a number: none, on a bound, just above it, above the last', () => {
    const lengths = ['', '5', '5.001', '10', '25', '25.001', '400'];
    const rows = lengths.map((length, at) => [String(at), started, length]);
    return read({ 'jobs.csv': csv(['job_id', 'started_at', 'line_length_m'], ...rows) }, ({ jobs }) => {
      expect([...jobs.mix.line_length_m]).toEqual([0, 1, 2, 2, 4, 5, 5]);
      expect([...jobs.mix.rise_test_s]).toEqual(lengths.map(() => 0));
    });
  });

  test('of a word: none, the commonest first, alike ones by name, and of very many the rare ones together', () => {
    // R-1 once, R-2 twice and so on.
    const words = Array.from({ length: 27 }, (_, at) => Array<string>(at + 1).fill(`R-${at + 1}`)).flat();
    const rows = ['', ...words].map((word, at) => [`${1000 + at}`, started, word, at % 2 ? 'repair' : 'install']);
    const files = { 'jobs.csv': csv(['job_id', 'started_at', 'refrigerant', 'work_type'], ...rows.slice(0, -1)) };
    return read(files, ({ jobs }) => {
      const levels = new Map(words.map((word, at) => [word, jobs.mix.refrigerant[at + 1]]));
      expect(jobs.mix.refrigerant[0]).toBe(0);
      // One of R-27 was left out: as common as R-26, and behind it.
      expect(levels.get('R-26')).toBe(1);
      expect(jobs.mix.refrigerant[jobs.count - 1]).toBe(2);
      expect(levels.get('R-25')).toBe(3);
      expect(levels.get('R-4')).toBe(24);
      expect(['R-3', 'R-2', 'R-1'].map((word) => levels.get(word))).toEqual([25, 25, 25]);
      // As many of either.
      expect([...jobs.mix.work_type.subarray(0, 2)]).toEqual([1, 2]);
    });
  });
});

describe('ids that are not plain', () => {
  const odd = [
    "o'neill",
    'say "hi"',
    'Ünïcode-ж-日本-🔧',
    'a, b',
    '100%',
    'back\\slash',
    "'); DROP TABLE jobs; --",
    '$1',
    '?',
    'null',
    'Ab',
    'aB',
  ];

  test.each([
    ['few', 0],
    ['more than are found in a list', 30],
  ])('are kept as they are: %s', (_, more) => {
    const names = [...odd, ...Array.from({ length: more }, (__, at) => `p${at}`)];
    const rows = names.map((name, at) => [
      `job ${name}`,
      `2026-02-01T09:${String(at).padStart(2, '0')}:00Z`,
      name,
      name,
      name,
    ]);
    const files = { 'jobs.csv': csv(['job_id', 'started_at', 'technician_id', 'crew_id', 'pump_id'], ...rows) };
    return read(files, ({ jobs, ids }) => {
      expect(ids).toEqual(names.map((name) => `job ${name}`));
      for (const grouping of ['technician', 'crew', 'pump'] as const) expect(unitsOf(jobs, grouping)).toEqual(names);
      expect(jobs.units.gauge.ids).toEqual([]);
    });
  });
});

test('jobs of one moment stand by their ids, in whatever order they came', () =>
  read(
    {
      'jobs.csv': csv(
        ['job_id', 'started_at'],
        ['c', '2026-02-01T09:00:00Z'],
        ['a', '2026-02-02T09:00:00Z'],
        ['b', '2026-02-01T09:00:00Z'],
        ['d', '2026-01-31T09:00:00Z'],
      ),
    },
    ({ jobs, ids }) => {
      expect(ids).toEqual(['d', 'b', 'c', 'a']);
      expect(Array.from(jobs.days, (day) => day - jobs.days[0])).toEqual([0, 1, 1, 2]);
    },
  ));

test('more jobs than the engine hands over at a time keep their places', () => {
  const rows = Array.from({ length: 5000 }, (_, at) => {
    const place = (at * 1789) % 5000;
    const time = new Date(Date.UTC(2026, 0, 1) + place * 3_600_000).toISOString().slice(0, 19);
    return [`job-${place}`, `${time}Z`, `pump-${place % 97}`, `${place % 31}`];
  });
  const files = { 'jobs.csv': csv(['job_id', 'started_at', 'pump_id', 'line_length_m'], ...rows) };
  return read(files, ({ jobs, ids }) => {
    expect(jobs.count).toBe(5000);
    expect(ids).toEqual(Array.from({ length: 5000 }, (_, place) => `job-${place}`));
    expect(unitsOf(jobs, 'pump')).toEqual(Array.from({ length: 5000 }, (_, place) => `pump-${place % 97}`));
    expect(Array.from(jobs.days, (day) => day - jobs.days[0])).toEqual(
      Array.from({ length: 5000 }, (_, place) => Math.floor(place / 24)),
    );
    expect([...jobs.mix.line_length_m].filter((level) => level === 5)).toHaveLength(
      rows.filter(([, , , length]) => Number(length) > 25).length,
    );
  });
});

test('a log without a record counts as undated, and is no job', () =>
  read(
    {
      'jobs.csv': csv(['job_id', 'started_at'], ['a', '2026-02-01T09:00:00Z']),
      'readings.csv': 'job_id,elapsed_s,vacuum_pa\na,0,100\nghost,0,100\nghost,1,90\nspectre,0,100\n',
    },
    ({ jobs, ids, undated }) => {
      expect([ids, jobs.count, undated]).toEqual([['a'], 1, 2]);
    },
  ));

test('a job that only another policy judged is not read', () =>
  read({ 'jobs.csv': csv(['job_id', 'started_at'], ['a', '2026-02-01T09:00:00Z']) }, async ({ jobs }, store) => {
    await ingestFiles(store, { 'jobs.csv': csv(['job_id', 'started_at'], ['b', '2026-02-02T09:00:00Z']) });
    await judge(store, { policy: { ...asRecorded, id: 'other' } });
    expect((await readFleetJobs(store, 'as-recorded', checkIds)).jobs).toEqual(jobs);
    expect(await placed(store)).toEqual(['a']);
    await readFleetJobs(store, 'other', checkIds);
    expect(await placed(store)).toEqual(['a', 'b']);
    expect((await readFleetJobs(store, 'never', checkIds)).jobs.count).toBe(0);
  }));
