import { z } from 'zod';
import { limit } from './check.ts';

/** Limits that several checks of a rise hold it against; a policy sets them for each. */
export const riseLimits = {
  limit_pa: limit({
    description: 'Limit of the rise test, on the level or on the rise',
    unit: 'Pa',
    schema: z.number().positive().max(101325),
    default: 66.661184,
    source: 'common-practice',
    recorded: 'rise_limit_pa',
  }),
  kind: limit<'level' | 'rise'>({
    description: 'level: the pressure that may be reached; rise: how far it may rise since isolation',
    schema: z.enum(['level', 'rise']),
    default: 'level',
    source: 'common-practice',
    recorded: 'rise_limit_kind',
  }),
  after_s: limit({
    description: 'Time after valve-off at which the limit counts; 0: at the end of the isolation',
    unit: 's',
    schema: z.number().min(0).max(604800),
    default: 0,
    source: 'common-practice',
    recorded: 'rise_test_s',
  }),
};
