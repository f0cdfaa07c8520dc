import { expect, test } from 'vitest';
import { dayText, momentText, monthText } from '../../src/pages/day-text.ts';
import { html, scriptJson } from '../../src/pages/html.ts';
import { countText, groupedCount, percentText, shareText } from '../../src/pages/share-text.ts';

test('html escapes values, keeps templates and joins lists', () => {
  expect(html`<p title="${'a"b'}">${"1 < 2 & 'x'"}</p>`.source).toBe(
    '<p title="a&quot;b">1 &lt; 2 &amp; &#39;x&#39;</p>',
  );
  expect(html`${null}${false}${0}${['<', html`<b>`, [2]]}`.source).toBe('0&lt;<b>2');
});

test('html makes lone surrogates well-formed', () => {
  expect(html`${'\ud800'}`.source).toBe('\ufffd');
});

test('script JSON ends no element, opens no comment, and reads back', () => {
  const value = { text: '</script><!-- \u2028' };
  const { source } = scriptJson(value);
  expect(source).not.toMatch(/[<>\u2028]/);
  expect(JSON.parse(source)).toEqual(value);
});

test('days are written as they stand, in no time zone', () => {
  expect(dayText('2026-03-02')).toBe('2 Mar 2026');
  expect(momentText('2026-03-02T23:15:00-06:00')).toBe('2 Mar 2026, 23:15');
  expect(momentText('2026-03-02')).toBe('2 Mar 2026');
  expect(monthText('2025-12')).toBe('Dec 2025');
  expect(dayText('soon')).toBe('soon');
  expect(dayText('2026-13-02')).toBe('2026-13-02');
});

test('counts and shares as people say them', () => {
  expect(countText(1, 'job')).toBe('1 job');
  expect(countText(12_345, 'job')).toBe('12\u00a0345 jobs');
  expect(groupedCount(999)).toBe('999');
  expect(percentText(0.234)).toBe('23%');
  expect(percentText(null)).toBe('–');
  // Newcombe 1998, method 3: 4 of 20 is 0.0807 to 0.4160
  expect(shareText(4, 20)).toBe('4 of 20 (20%, 8–42%)');
  expect(shareText(0, 0)).toBe('none judged');
});
