import fc from 'fast-check';
import { expect, test } from 'vitest';
import { dateStyles, inDateStyle } from '../../src/pages/date-style.ts';
import { dayText, momentText, monthText } from '../../src/pages/day-text.ts';

const day = fc.integer({ min: -20_000, max: 60_000 }).map((days) => new Date(days * 86_400_000).toISOString());

test('every day reads in each style as the calendar has it', () => {
  const usual = new Intl.DateTimeFormat('en-US', { year: 'numeric', month: 'short', day: 'numeric', timeZone: 'UTC' });
  fc.assert(
    fc.property(day, (iso) => {
      expect(inDateStyle(dayText(iso), 'iso')).toBe(iso.slice(0, 10));
      expect(inDateStyle(dayText(iso), 'month-first')).toBe(usual.format(new Date(iso)));
      expect(inDateStyle(dayText(iso), 'day-first')).toBe(dayText(iso));
      expect(inDateStyle(monthText(iso.slice(0, 7)), 'iso')).toBe(iso.slice(0, 7));
      expect(inDateStyle(monthText(iso.slice(0, 7)), 'month-first')).toBe(monthText(iso.slice(0, 7)));
    }),
  );
});

test('days are changed in the middle of a text, as often as they come, with the clock beside them', () => {
  const text = `From ${dayText('2026-03-02')} (${momentText('2026-04-30T08:15:00-06:00')}) to ${monthText('2026-05')}.`;
  expect(inDateStyle(text, 'month-first')).toBe('From Mar 2, 2026 (Apr 30, 2026, 08:15) to May 2026.');
  expect(inDateStyle(text, 'iso')).toBe('From 2026-03-02 (2026-04-30, 08:15) to 2026-05.');
  expect(inDateStyle(text, 'day-first')).toBe(text);
});

test('what only looks a little like a day stays', () => {
  for (const style of dateStyles)
    for (const text of ['2 March 2026', 'May be 2026', '12 Mar', 'Decoy 2026', 'Mar 20261', 'mar 2026'])
      expect(inDateStyle(text, style)).toBe(text);
});

test('a text that was changed once is not changed again', () => {
  for (const style of ['iso', 'month-first'] as const)
    expect(inDateStyle(inDateStyle('2 Mar 2026', style), style)).toBe(inDateStyle('2 Mar 2026', style));
});
