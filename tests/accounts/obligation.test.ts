import { describe, expect, test } from 'vitest';
import { dayOf } from '../../src/numerics/calendar-day.ts';
import { obligation, type ObligationTerms } from '../../src/accounts/obligation.ts';

const due = dayOf('2026-03-31');
const on = (today: number, changed: Partial<ObligationTerms> = {}) =>
  obligation(
    { kind: 'repair', systemId: 's', ruleId: 'r', basis: 'second hand', dueDay: due, sinceDay: due - 30, ...changed },
    today,
  );

describe('the state of something due', () => {
  test.each([
    [due - 1, null, 'due'],
    [due, null, 'due'],
    [due + 1, null, 'overdue'],
    [due + 1, due, 'done'],
    [due + 1, due + 1, 'done-late'],
    // What is done tomorrow is not done today.
    [due - 2, due - 1, 'due'],
    [due + 1, due + 2, 'overdue'],
  ])('on day %i, done on %s: %s', (today, doneDay, state) => {
    const found = on(today, { doneDay });
    expect(found.state).toBe(state);
    expect(found.doneDay).toBe(doneDay !== null && doneDay <= today ? doneDay : null);
  });

  test('is not known without the day that it counts from, unless it is done', () => {
    expect(on(due, { dueDay: null, lacks: 'a day' })).toMatchObject({ state: 'unknown', lacks: 'a day' });
    expect(on(due, { dueDay: null, lacks: 'a day', doneDay: due })).toMatchObject({ state: 'done', lacks: null });
  });

  test('is not said to be overdue where the record could not show it done', () => {
    const lacks = 'a place for reports';
    expect(on(due, { lacks })).toMatchObject({ state: 'due', lacks: null });
    expect(on(due + 1, { lacks })).toMatchObject({ state: 'unknown', lacks });
    expect(on(due + 1, { lacks, doneDay: due + 1 })).toMatchObject({ state: 'done-late', lacks: null });
  });
});
