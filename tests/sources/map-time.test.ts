import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type ReadTime, saysOffset, timeReader, zoneName } from '../../src/sources/map-time.ts';
import type { MapTime } from '../../src/sources/source-map.ts';
import { spreadsheetSeconds } from '../../src/sources/spreadsheet-number.ts';

const utc = (iso: string) => Date.parse(iso) / 1000;

/** Moments as ISO 8601 in UTC, or what is wrong. */
function shown(read: ReadTime): string[] | string {
  return 'problem' in read
    ? read.problem
    : read.moments.map((moment) => new Date(moment * 1000).toISOString().replace('.000Z', 'Z'));
}

describe('seconds since the start or since midnight', () => {
  test.each<[MapTime, string, number]>([
    ['elapsed', '1:02:03', 3723],
    ['elapsed', '0:05', 5],
    ['elapsed', '75:30', 4530],
    ['elapsed', '100:00:00.25', 360_000.25],
    ['elapsed', ' 00:00:01,5 ', 1.5],
    ['clock', '0:00', 0],
    ['clock', '23:59:59', 86_399],
    ['clock', '7:05:01.5', 25_501.5],
    ['clock', '7:05:01,25', 25_501.25],
    ['clock', '12:00 AM', 0],
    ['clock', '12:00:01 a.m.', 1],
    ['clock', '12:30PM', 45_000],
    ['clock', '1:00:00 p.m.', 46_800],
    ['clock', '11:59:59 PM', 86_399],
    ['epoch_s', '1772800000.5', 1_772_800_000.5],
    ['epoch_s', '1.7728e9', 1_772_800_000],
    ['epoch_ms', '1772800000500', 1_772_800_000.5],
    ['spreadsheet', '46087.5', utc('2026-03-06T12:00:00Z')],
    ['spreadsheet', '0', utc('1899-12-30T00:00:00Z')],
  ])('%s: %s', (time, text, seconds) => {
    expect(timeReader(time).read(text)).toEqual({ moments: [seconds] });
  });

  test.each<[MapTime, string, string]>([
    ['elapsed', '1:75:30', 'not a time since the start h:mm:ss: "1:75:30"'],
    ['elapsed', '1:2', 'not a time since the start h:mm:ss: "1:2"'],
    ['elapsed', '90', 'not a time since the start h:mm:ss: "90"'],
    ['elapsed', '-0:30', 'not a time since the start h:mm:ss: "-0:30"'],
    ['elapsed', '0:60', 'not a time since the start h:mm:ss: "0:60"'],
    ['clock', '24:00:00', 'not a time of day hh:mm:ss: "24:00:00"'],
    ['clock', '12:60', 'not a time of day hh:mm:ss: "12:60"'],
    ['clock', '13:00 PM', 'not a time of day hh:mm:ss: "13:00 PM"'],
    ['clock', '0:30 AM', 'not a time of day hh:mm:ss: "0:30 AM"'],
    ['clock', 'noon', 'not a time of day hh:mm:ss: "noon"'],
    ['epoch_s', '2026-03-05', 'not a number: "2026-03-05"'],
    ['epoch_ms', '0x10', 'not a number: "0x10"'],
    ['spreadsheet', 'Friday', 'not a number: "Friday"'],
    ['local', '2026-02-29 08:00:00', 'not a time such as 2026-03-05 14:30:00: "2026-02-29 08:00:00"'],
    ['local', '05.03.2026 08:00', 'not a time such as 2026-03-05 14:30:00: "05.03.2026 08:00"'],
    ['local', '2026-03-05 25:00:00Z', 'not a time such as 2026-03-05 14:30:00: "2026-03-05 25:00:00Z"'],
    [{ format: 'dd.MM.yyyy' }, '2026-03-05', 'not a time dd.MM.yyyy: "2026-03-05"'],
  ])('%s refuses %s', (time, text, problem) => {
    expect(timeReader(time).read(text)).toEqual({ problem });
  });

  test('what each counts from', () => {
    expect(timeReader('clock').origin).toBe('midnight');
    expect(timeReader('elapsed').origin).toBe('duration');
    for (const time of ['local', 'epoch_s', 'epoch_ms', 'spreadsheet', { format: 'yyyy' }] as const)
      expect(timeReader(time).origin).toBe('epoch');
  });

  test('the example of a day number', () => {
    expect(spreadsheetSeconds(46_087.5)).toBe(1_772_798_400);
    // A third of a day is no binary number; times are to the millisecond.
    expect(spreadsheetSeconds(46_087 + 1 / 3)).toBe(utc('2026-03-06T08:00:00Z'));
  });
});

test('any time of day, in 24 hours and in 12, is its seconds since midnight', () => {
  const two = (value: number) => String(value).padStart(2, '0');
  fc.assert(
    fc.property(fc.nat(86_399), (seconds) => {
      const [hour, rest] = [Math.floor(seconds / 3600), `${two(Math.floor(seconds / 60) % 60)}:${two(seconds % 60)}`];
      expect(timeReader('clock').read(`${two(hour)}:${rest}`)).toEqual({ moments: [seconds] });
      expect(timeReader('clock').read(`${hour % 12 || 12}:${rest} ${hour < 12 ? 'AM' : 'PM'}`)).toEqual({
        moments: [seconds],
      });
      expect(timeReader('elapsed').read(`${hour}:${rest}`)).toEqual({ moments: [seconds] });
    }),
  );
});

test('any moment, told by the clock of a zone, is among what that clock may mean', () => {
  const moments = fc.integer({ min: utc('2020-01-01T00:00:00Z'), max: utc('2030-01-01T00:00:00Z') });
  fc.assert(
    fc.property(
      fc.constantFrom('America/Denver', 'Europe/Berlin', 'Australia/Lord_Howe', 'Asia/Kolkata'),
      moments,
      (timeZone, moment) => {
        const clock = new Intl.DateTimeFormat('sv-SE', { timeZone, dateStyle: 'short', timeStyle: 'medium' }).format(
          moment * 1000,
        );
        expect(timeReader('local', timeZone).read(clock)).toEqual({
          moments: expect.arrayContaining([moment]) as number[],
        });
      },
    ),
  );
});

describe('date and time', () => {
  test.each<[MapTime, string, string, string]>([
    ['local', 'America/Denver', '2026-03-05 08:15:00', '2026-03-05T15:15:00Z'],
    ['local', 'America/Denver', '2026-07-05T08:15', '2026-07-05T14:15:00Z'],
    ['local', '-07:00', '2026-07-05   08:15:00.5', '2026-07-05T15:15:00.500Z'],
    ['local', 'UTC', ' 2026-03-05 ', '2026-03-05T00:00:00Z'],
    // An offset that the text says goes before the map's zone, however it is written.
    ['local', 'America/Denver', '2026-03-05T08:15:00Z', '2026-03-05T08:15:00Z'],
    ['local', 'America/Denver', '2026-03-05T08:15:00+01:00', '2026-03-05T07:15:00Z'],
    ['local', 'America/Denver', '2026-03-05 08:15:00 +0100', '2026-03-05T07:15:00Z'],
    ['local', 'America/Denver', '2026-03-05 08:15-07', '2026-03-05T15:15:00Z'],
    ['local', 'America/Denver', '2026-03-05T08:15:00,5+01:00', '2026-03-05T07:15:00.500Z'],
    ['local', 'America/Denver', '20260305T081500Z', '2026-03-05T08:15:00Z'],
    [{ format: 'dd.MM.yyyy HH:mm:ss' }, 'Europe/Berlin', '05.03.2026 08:15:00', '2026-03-05T07:15:00Z'],
    [{ format: 'M/d/yyyy h:mm a' }, 'America/Denver', '3/5/2026 8:15 PM', '2026-03-06T03:15:00Z'],
    [{ format: 'yyyy-MM-dd HH:mm:ss.SSS' }, 'UTC', '2026-03-05 08:15:00.125', '2026-03-05T08:15:00.125Z'],
    [{ format: 'yyyy-MM-dd HH:mm ZZ' }, 'America/Denver', '2026-03-05 08:15 +01:00', '2026-03-05T07:15:00Z'],
    // What the pattern quotes is no offset.
    [{ format: "yyyy-MM-dd 'Zeit' HH:mm" }, 'America/Denver', '2026-03-05 Zeit 08:15', '2026-03-05T15:15:00Z'],
    ['spreadsheet', 'America/Denver', '46087.34375', '2026-03-06T15:15:00Z'],
  ])('%j in %s: %s', (time, zone, text, moment) => {
    expect(shown(timeReader(time, zone).read(text))).toEqual([moment]);
  });

  test('offsets are told from dates', () => {
    for (const text of [
      '2026-03-05T14:30Z',
      '2026-03-05 14:30 +01:00',
      '2026-03-05 14:30:00.5-0700',
      '20260305T1430-07',
    ])
      expect([text, saysOffset(text)]).toEqual([text, true]);
    for (const text of ['2026-03-05', '2026-03-05 14:30:00', '2026-03-05T14:30'])
      expect([text, saysOffset(text)]).toEqual([text, false]);
  });

  test('an offset is a zone of the calendar library', () => {
    expect([zoneName('-07:00'), zoneName('America/Denver')]).toEqual(['UTC-07:00', 'America/Denver']);
  });
});

/** The day of a month on which its n-th Sunday falls; of −1 the last. */
function sunday(year: number, month: number, nth: number): number {
  const days = new Date(Date.UTC(year, month, 0)).getUTCDate();
  const sundays = Array.from({ length: days }, (_, index) => index + 1).filter(
    (day) => new Date(Date.UTC(year, month - 1, day)).getUTCDay() === 0,
  );
  return sundays.at(nth < 0 ? nth : nth - 1) ?? 0;
}

describe('summer time by the published rules', () => {
  const day = (month: number, nth: number) =>
    `2026-${String(month).padStart(2, '0')}-${String(sunday(2026, month, nth)).padStart(2, '0')}`;
  // United States, Energy Policy Act of 2005, section 110: second Sunday of March to first Sunday of November, at 2:00.
  // European Union, directive 2000/84/EC: last Sunday of March to last Sunday of October, at 1:00 UTC.
  const denver = { begins: day(3, 2), ends: day(11, 1) };
  const berlin = { begins: day(3, -1), ends: day(10, -1) };

  test('the days of 2026', () => {
    expect(denver).toEqual({ begins: '2026-03-08', ends: '2026-11-01' });
    expect(berlin).toEqual({ begins: '2026-03-29', ends: '2026-10-25' });
  });

  test.each([
    ['America/Denver', denver, '01:59:59', '08:59:59', '03:00:00', '09:00:00', '02:00:00', '02:59:59'],
    ['Europe/Berlin', berlin, '01:59:59', '00:59:59', '03:00:00', '01:00:00', '02:00:00', '02:59:59'],
  ])('%s leaves out an hour when it begins', (zone, { begins }, before, beforeUtc, after, afterUtc, first, last) => {
    const { read } = timeReader('local', zone);
    expect(shown(read(`${begins} ${before}`))).toEqual([`${begins}T${beforeUtc}Z`]);
    expect(shown(read(`${begins} ${after}`))).toEqual([`${begins}T${afterUtc}Z`]);
    for (const clock of [first, last])
      expect(shown(read(`${begins} ${clock}`))).toBe(
        `no clock of ${zone} shows "${begins} ${clock}": that hour is left out for summer time`,
      );
  });

  test.each([
    [
      'America/Denver',
      denver.ends,
      '00:59:59',
      '06:59:59',
      '01:00:00',
      ['07:00:00', '08:00:00'],
      '02:00:00',
      '09:00:00',
    ],
    [
      'Europe/Berlin',
      berlin.ends,
      '01:59:59',
      '23:59:59',
      '02:00:00',
      ['00:00:00', '01:00:00'],
      '03:00:00',
      '02:00:00',
    ],
  ])('%s stands twice at an hour when it ends', (zone, ends, before, beforeUtc, twice, twiceUtc, after, afterUtc) => {
    const { read } = timeReader('local', zone);
    const eve = new Date(Date.parse(`${ends}T00:00:00Z`) - 1).toISOString().slice(0, 10);
    expect(shown(read(`${ends} ${before}`))).toEqual([`${beforeUtc > '20' ? eve : ends}T${beforeUtc}Z`]);
    expect(shown(read(`${ends} ${twice}`))).toEqual(twiceUtc.map((clock) => `${ends}T${clock}Z`));
    expect(shown(read(`${ends} ${after}`))).toEqual([`${ends}T${afterUtc}Z`]);
  });

  test('a clock that never changes has every hour once', () => {
    const { read } = timeReader('local', '-07:00');
    expect(shown(read(`${denver.begins} 02:30:00`))).toEqual([`${denver.begins}T09:30:00Z`]);
    expect(shown(read(`${denver.ends} 01:30:00`))).toEqual([`${denver.ends}T08:30:00Z`]);
  });
});
