import { z } from 'zod';
import { limit } from './check.ts';

/** How much shorter than asked a test may be: nobody's watch is better. */
export const slackRatio = limit({
  description: 'A test shorter than asked by no more than this ratio of it counts as long enough',
  schema: z.number().min(0).max(0.5),
  default: 0.05,
  source: 'common-practice',
});
