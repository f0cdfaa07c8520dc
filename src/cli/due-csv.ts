import { dateOf } from '../numerics/calendar-day.ts';
import type { DueReport } from '../pages/leaks-data.ts';
import { csvText } from './csv-text.ts';

/** What is overdue, due, or cannot be told, as a table for a spreadsheet. */
export function dueCsv({ open, doneLate, calibrations, asOf, notice }: DueReport): string {
  const columns = [
    'state',
    'due_on',
    'what',
    'system_id',
    'site_id',
    'refrigerant',
    'since',
    'done_on',
    'lacks',
    'rule_id',
    'rule_known_by',
    'as_of',
    'notice',
  ];
  const date = (day: number | null) => (day === null ? null : dateOf(day));
  return csvText(columns, [
    ...[...open, ...doneLate].map((line) => ({
      state: line.state,
      due_on: line.dueOn,
      what: line.kind,
      system_id: line.systemId,
      site_id: line.siteId,
      refrigerant: line.refrigerant,
      since: date(line.sinceDay),
      done_on: date(line.doneDay),
      lacks: line.lacks,
      rule_id: line.ruleId,
      rule_known_by: line.basis,
      as_of: asOf,
      notice,
    })),
    ...calibrations.map(({ gaugeId, calibratedOn, dueOn, state }) => ({
      state,
      due_on: dueOn,
      what: 'calibration',
      system_id: gaugeId,
      since: calibratedOn,
      lacks: calibratedOn === null ? 'the day of a calibration' : null,
      rule_known_by: 'common practice',
      as_of: asOf,
    })),
  ]);
}
