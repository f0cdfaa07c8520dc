import { eu10052009 } from './eu-1005-2009.ts';
import { eu2024573 } from './eu-2024-573.ts';
import type { RuleSet } from './rule-set.ts';
import { us40Cfr82157 } from './us-40-cfr-82-157.ts';
import { us40Cfr84106 } from './us-40-cfr-84-106.ts';

/** Every rule set, one file each. */
export const rules: readonly RuleSet[] = [us40Cfr82157, us40Cfr84106, eu2024573, eu10052009];
