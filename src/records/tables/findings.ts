import { choice, identifier, ratio, text } from '../column.ts';
import { type RowOf, table } from '../table.ts';

export const findings = table('findings', 'check and job', ['job_id', 'check_id', 'policy_id'], {
  job_id: identifier('The job'),
  check_id: identifier('The check'),
  outcome: choice(['pass', 'suspect', 'fail', 'not-evaluated', 'missing'], 'What the check found'),
  message_id: identifier('Which of the messages of the check'),
  value: ratio('What was measured, in unit', -1000000000000.0, 1000000000000.0).optional(),
  limit_value: ratio('What it was held against, in unit', -1000000000000.0, 1000000000000.0).optional(),
  unit: identifier('Unit of value and limit').optional(),
  evidence: text('What speaks for the outcome, as JSON').optional(),
  policy_id: identifier('The policy that judged'),
});

export type Finding = RowOf<typeof findings>;
