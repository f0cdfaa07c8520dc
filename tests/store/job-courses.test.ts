import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { openCallbacks } from '../../src/steps/open-callbacks.ts';
import { judge } from '../../src/steps/judge.ts';
import { ingestFiles, inStore, tempFolder } from './temp-store.ts';

type Cells = Readonly<Record<string, string | number>>;

/** A CSV file of rows, each with the columns that any of them has. */
function csv(rows: readonly Cells[]): string {
  const names = [...new Set(rows.flatMap((row) => Object.keys(row)))];
  return `${[names, ...rows.map((row) => names.map((name) => row[name] ?? ''))].map((cells) => cells.join(',')).join('\n')}\n`;
}

const at = (day: string, clock = '09:00:00', offset = '-06:00') => `2026-${day}T${clock}${offset}`;
const job = (id: string, day: string, more: Cells = {}): Cells => ({
  job_id: id,
  system_id: 'system-1',
  work_type: 'install',
  started_at: at(day),
  // A charge that can be judged.
  factory_charge_kg: 2,
  weighed_in_kg: 0,
  charge_basis: 'pre-charged',
  ...more,
});
const callback = (id: string, day: string, more: Cells = {}): Cells => ({
  callback_id: id,
  system_id: 'system-1',
  reported_at: at(day, '15:00:00'),
  ...more,
});

/** What callbacks trace to, and how the jobs are watched. */
async function traced(jobs: readonly Cells[], callbacks: readonly Cells[], horizonDays = 365) {
  return inStore(join(tempFolder(), 'store'), async (store) => {
    await ingestFiles(store, { 'jobs.csv': csv(jobs), 'callbacks.csv': csv(callbacks) });
    await judge(store);
    const open = await openCallbacks(store, { codes: false, horizonDays });
    const ids = await store.rows<{ job_id: string }>('SELECT job_id FROM temp.fleet_jobs ORDER BY rowid');
    const { jobs: places, stops, endings } = open.followed;
    return {
      callbacks: open.callbacks.map(({ callbackId, jobId, tracedBy, daysAfter }) => [
        callbackId,
        jobId,
        tracedBy,
        daysAfter,
      ]),
      watched: Object.fromEntries(Array.from(places, (place, row) => [ids[place].job_id, [stops[row], endings[row]]])),
    };
  });
}

describe('a callback traces', () => {
  test('to the latest work on its system before it', async () => {
    const { callbacks } = await traced(
      [
        job('a', '01-05'),
        job('b', '02-05'),
        job('later', '03-05'),
        job('elsewhere', '02-20', { system_id: 'system-2' }),
      ],
      [callback('c', '02-25')],
    );
    expect(callbacks).toEqual([['c', 'b', 'system', 20]]);
  });

  test('to the job that the source names, though another came after it', async () => {
    const { callbacks } = await traced(
      [job('a', '01-05'), job('b', '02-05')],
      [callback('c', '02-25', { job_id: 'a' })],
    );
    expect(callbacks).toEqual([['c', 'a', 'job', 51]]);
  });

  test('by the system where the job that is named is not known, or was done after it', async () => {
    const jobs = [job('a', '01-05'), job('b', '03-05')];
    const { callbacks } = await traced(jobs, [
      callback('c', '02-25', { job_id: 'x' }),
      callback('d', '02-26', { job_id: 'b' }),
    ]);
    expect(callbacks).toEqual([
      ['c', 'a', 'system', 51],
      ['d', 'a', 'system', 52],
    ]);
  });

  test('to a job by name though the callback names no system', async () => {
    const { callbacks } = await traced([job('a', '01-05')], [callback('c', '02-25', { system_id: '', job_id: 'a' })]);
    expect(callbacks).toEqual([['c', 'a', 'job', 51]]);
  });

  test('to nothing where it names neither, or no work was done before it', async () => {
    const { callbacks } = await traced(
      [job('a', '01-05')],
      [
        callback('c', '01-04'),
        callback('d', '01-06', { system_id: '' }),
        callback('e', '01-07', { system_id: 'system-9' }),
      ],
    );
    expect(callbacks).toEqual([
      ['c', null, 'no-work-before', null],
      ['d', null, 'not-named', null],
      ['e', null, 'no-work-before', null],
    ]);
  });

  test('past a service that opened nothing, and past a circuit taken down', async () => {
    const jobs = [
      job('a', '01-05'),
      job('look', '01-20', { work_type: 'service', factory_charge_kg: '', weighed_in_kg: '' }),
      job('opened', '02-01', { work_type: 'service', opened_circuit: 'true' }),
      job('gone', '02-20', { work_type: 'decommission' }),
    ];
    const { callbacks } = await traced(jobs, [callback('c', '01-25'), callback('d', '02-05'), callback('e', '02-25')]);
    expect(callbacks.map(([, id]) => id)).toEqual(['a', 'opened', 'opened']);
  });

  test('by the moment and not by how it is written: noon there is before one in the afternoon here', async () => {
    const jobs = [
      job('a', '01-05', { started_at: at('01-05', '08:00:00') }),
      job('b', '01-10', { started_at: at('01-10', '18:30:00', '+01:00') }),
    ];
    // 11:00 at −06:00 is 18:00 at +01:00: before job b.
    const { callbacks } = await traced(jobs, [callback('c', '01-10', { reported_at: at('01-10', '11:00:00') })]);
    expect(callbacks).toEqual([['c', 'a', 'system', 5]]);
  });

  test('of work under way at once to the row that was done last, which is the one that is watched', async () => {
    const jobs = [
      job('long', '01-05', { started_at: at('01-05', '08:00:00'), ended_at: at('01-05', '17:00:00') }),
      job('short', '01-05', { started_at: at('01-05', '09:00:00'), ended_at: at('01-05', '12:00:00') }),
      job('twin-b', '01-06', { system_id: 'system-2' }),
      job('twin-a', '01-06', { system_id: 'system-2' }),
    ];
    const { callbacks, watched } = await traced(jobs, [
      callback('c', '02-04', { cause_found: 'leak at a flare' }),
      callback('d', '02-05', { cause_found: 'leak at a flare', system_id: 'system-2' }),
    ]);
    expect(callbacks).toEqual([
      ['c', 'long', 'system', 30],
      ['d', 'twin-b', 'system', 30],
    ]);
    expect(watched).toMatchObject({ long: [30, 1], 'twin-b': [30, 1] });
  });

  test('on the very day of the job that the source names, whatever the hour says', async () => {
    const jobs = [job('a', '01-05'), job('b', '02-05')];
    const { callbacks } = await traced(jobs, [
      callback('c', '02-05', { job_id: 'b', reported_at: at('02-05', '00:00:00') }),
    ]);
    expect(callbacks).toEqual([['c', 'b', 'job', 0]]);
  });

  test('not a day before its job, where the clocks of two places make it seem so', async () => {
    const { callbacks, watched } = await traced(
      [job('a', '01-05', { started_at: at('01-05', '08:00:00', '+10:00') })],
      [callback('c', '01-05', { reported_at: '2026-01-04T23:30:00+00:00', cause_found: 'leak' })],
    );
    expect(callbacks).toEqual([['c', 'a', 'system', 0]]);
    expect(watched).toEqual({ a: [0, 1] });
  });

  test('not to work that was still under way', async () => {
    const jobs = [job('a', '01-05'), job('b', '01-10', { ended_at: at('01-12', '16:00:00') })];
    const { callbacks } = await traced(jobs, [callback('c', '01-11'), callback('d', '01-13')]);
    expect(callbacks.map(([, id]) => id)).toEqual(['a', 'b']);
  });
});

describe('a job is watched', () => {
  test('until its callback; what is plainly something else does not end it', async () => {
    const { watched } = await traced(
      [job('a', '01-05')],
      [
        callback('drain', '01-10', { cause_found: 'condensate drain blocked' }),
        callback('leak', '02-04', { cause_found: 'leak at a flare' }),
        callback('again', '02-20', { cause_found: 'leak at a flare' }),
      ],
    );
    expect(watched).toEqual({ a: [30, 1] });
  });

  test('until it is followed up, or its circuit is worked on by others', async () => {
    const jobs = [
      job('a', '01-05'),
      job('b', '01-25', { followup_of_job_id: 'a', work_type: 'service', factory_charge_kg: '', weighed_in_kg: '' }),
      job('c', '02-05', { system_id: 'system-2' }),
      job('d', '02-15', { system_id: 'system-2', work_type: 'repair' }),
      job('e', '02-16', { system_id: 'system-3' }),
    ];
    const { watched } = await traced(jobs, []);
    expect(watched).toMatchObject({ a: [20, 2], c: [10, 3], d: [1, 0], e: [0, 0] });
    expect(watched).not.toHaveProperty('b');
  });

  test('until the callback that names it, whatever was done in between', async () => {
    const jobs = [job('a', '01-05'), job('b', '01-20', { work_type: 'recharge' })];
    const { watched } = await traced(jobs, [callback('c', '02-04', { job_id: 'a', cause_found: 'leak' })]);
    expect(watched).toMatchObject({ a: [30, 1], b: [15, 0] });
  });

  test('a follow-up of a day later is part of the same work; one before it, or of itself, is none', async () => {
    const jobs = [
      job('a', '01-05'),
      job('b', '01-06', { followup_of_job_id: 'a' }),
      job('c', '01-05', { system_id: 'system-2', followup_of_job_id: 'c' }),
      job('d', '01-10', { system_id: 'system-3' }),
      job('e', '01-02', { system_id: 'system-4', followup_of_job_id: 'd' }),
      job('f', '01-20', { system_id: 'system-5' }),
    ];
    const { watched } = await traced(jobs, []);
    expect(watched).toMatchObject({ a: [1, 3], b: [14, 0], c: [15, 0], d: [10, 0] });
  });

  test('not where it names no system, unless nothing could be laid to it at all', async () => {
    const { watched, callbacks } = await traced(
      [job('a', '01-05', { system_id: '' }), job('b', '01-06')],
      [callback('c', '01-20', { job_id: 'a', system_id: '' })],
    );
    expect(callbacks).toEqual([['c', 'a', 'job', 15]]);
    expect(Object.keys(watched)).toEqual(['b']);
  });

  test('a callback beyond the horizon is laid to nothing', async () => {
    const { watched } = await traced([job('a', '01-05')], [callback('c', '02-25', { cause_found: 'leak' })], 30);
    expect(watched).toEqual({ a: [30, 4] });
  });
});
