import { expect, test } from 'vitest';

test('the tests run on the packaged Node, whatever Node the machine has', () => {
  expect(process.versions.node.split('.')[0]).toBe('24');
});

test('the tests run in UTC, wherever the machine stands', () => {
  expect(new Date(2026, 6, 1).toISOString()).toBe('2026-07-01T00:00:00.000Z');
  expect(Intl.DateTimeFormat().resolvedOptions().timeZone).toBe('UTC');
});
