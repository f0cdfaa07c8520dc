import { z } from 'zod';
import { check, limit } from '../check.ts';
import { riseLimits } from '../rise-limits.ts';
import { isolationOrProblem, riseExamples, riseMessages } from '../rise-problem.ts';

const isolated = { vacuum_readings: 900, isolation_start_s: 1200, isolation_end_s: 1800, isolation_pa: 33.33 };
// 6 µm a minute, known to a third of it: 60 µm in ten minutes.
const climbs = {
  ...isolated,
  rise_pa: 8,
  rise_shape: 'leak' as const,
  leak_pa_per_s: 0.0133322368,
  leak_low_pa_per_s: 0.009,
  leak_high_pa_per_s: 0.018,
  smallest_rise_seen_pa_per_s: 0.0004,
};
const mixed = { ...climbs, rise_shape: 'mixed' as const, rise_pa: 30, vapour_rise_pa: 22 };
// About what `yearly-loss` and `leak-regimes` give for it; the examples only show how it is said.
const sized = { tested_volume_l: 5, leak_loss_low_kg_per_year: 0.5, leak_loss_high_kg_per_year: 18 };
const quiet = { ...isolated, rise_pa: 2, smallest_rise_seen_pa_per_s: 0.0004 };

const steady =
  'The pressure climbed by {leak_pa_per_s} ({leak_low_pa_per_s} to {leak_high_pa_per_s}) without slackening, as a leak does.';
const partly =
  'Part of the rise slackened ({vapour_rise_pa}, moisture or outgassing), but {leak_pa_per_s} ({leak_low_pa_per_s} to {leak_high_pa_per_s}) of it did not, as with a leak.';
const loss =
  'On the {tested_volume_l} tested that is a leak that would lose between {leak_loss_low_kg_per_year} and {leak_loss_high_kg_per_year} in operation; take that as an order of magnitude.';
const causes =
  'It may sit in flares, brazed joints, valve cores and caps, or in the gauge, the valve and the hose of the test itself.';
const unseen = 'A climb of less than {smallest_rise_seen_pa_per_s} would not have shown.';

/** Whether the pressure of the isolated system climbed as with a leak. */
export const leaking = check({
  id: 'leaking',
  group: 'rise',
  question: 'Did the pressure climb steadily after valve-off, as it does with a leak?',
  needs: ['rise_shape', 'leak_pa_per_s', 'smallest_rise_seen_pa_per_s'],
  limits: {
    limit_pa: riseLimits.limit_pa,
    kind: riseLimits.kind,
    dry_ratio: limit({
      description:
        'An undecided rise, or the most of it that may be a leak, up to this ratio of the room that the limit leaves at valve-off is no matter',
      schema: z.number().min(0).max(1),
      default: 0.1,
      source: 'common-practice',
    }),
    least_pa: limit({
      description: 'An undecided rise, or the most of it that may be a leak, up to this is no matter',
      unit: 'Pa',
      schema: z.number().min(0).max(101325),
      default: 1.33322368,
      source: 'common-practice',
    }),
  },
  messages: {
    ...riseMessages,
    leak: `${steady} ${causes}`,
    'leak-sized': `${steady} ${loss} ${causes}`,
    mixed: `${partly} ${causes}`,
    'mixed-sized': `${partly} ${loss} ${causes}`,
    undecided:
      'The pressure rose by {rise_pa} in {isolation_s}: a leak of up to {leak_high_pa_per_s}, or moisture or outgassing. This curve cannot tell; a longer one might.',
    'undecided-steady':
      'The pressure rose by {rise_pa} in {isolation_s}. {leak_low_pa_per_s} to {leak_high_pa_per_s} of it is steady, as with a leak; the rest this curve cannot tell from moisture or outgassing. A longer one might.',
    little:
      'The pressure rose by {rise_pa} in {isolation_s}. This curve does not tell of what, but a leak is at most {leak_high_pa_per_s} of it, {leak_most_pa} in all.',
    dry: `The pressure rose by no more than {rise_pa} in {isolation_s}. ${unseen}`,
    settling: `The rise of {rise_pa} was the pressure evening out after valve-off. ${unseen}`,
    moisture: `The rise of {rise_pa} slackened, as with moisture or outgassing and not as with a leak. ${unseen}`,
    'not-fitted': 'The isolation does not have the readings that it takes to tell the shape of its rise.',
  },
  teach:
    'A leak climbs by as much in the tenth minute as in the second; moisture and outgassing slacken. Cap the valves, valve off at the system, and look at the gauge and its hose before the system. Then find the leak with dry nitrogen and soap, never by a longer vacuum, since a vacuum pulls with one atmosphere only. Oil of a system that has run gives off gas for a long while, which looks like a leak in a short test.',
  references: ['vacuum-rate-of-rise', 'leak-regimes', 'common-practice'],
  examples: [
    { name: 'six microns a minute', facts: climbs, outcome: 'fail', message: 'leak' },
    {
      name: 'the same on a volume that is known',
      facts: { ...climbs, ...sized },
      outcome: 'fail',
      message: 'leak-sized',
    },
    { name: 'on top of moisture', facts: mixed, outcome: 'fail', message: 'mixed' },
    {
      name: 'on top of moisture, on a volume that is known',
      facts: { ...mixed, ...sized },
      outcome: 'fail',
      message: 'mixed-sized',
    },
    {
      name: 'five minutes of a curve that bends a little',
      facts: { ...climbs, rise_shape: 'undecided', leak_low_pa_per_s: 0 },
      outcome: 'suspect',
      message: 'undecided',
    },
    {
      name: 'a curve that bends a little, and is steady for the most part',
      facts: { ...climbs, rise_shape: 'undecided' },
      outcome: 'suspect',
      message: 'undecided-steady',
    },
    {
      name: 'undecided, but too small to matter',
      facts: { ...climbs, rise_shape: 'undecided', leak_low_pa_per_s: 0, rise_pa: 1 },
      outcome: 'pass',
      message: 'dry',
    },
    {
      name: 'undecided, 25 µm of the 250 µm that the limit leaves',
      facts: { ...climbs, rise_shape: 'undecided', leak_low_pa_per_s: 0, rise_pa: 3.3 },
      outcome: 'pass',
      message: 'dry',
    },
    {
      name: 'a large rise, of which a leak can be no more than 2 µm a minute',
      facts: { ...climbs, rise_shape: 'undecided', leak_low_pa_per_s: 0, leak_high_pa_per_s: 0.0044 },
      outcome: 'pass',
      message: 'little',
    },
    {
      name: 'a straight climb that the accuracy of the gauge could explain',
      facts: { ...climbs, leak_low_pa_per_s: 0 },
      outcome: 'suspect',
      message: 'undecided',
    },
    { name: 'next to nothing', facts: { ...quiet, rise_shape: 'dry' }, outcome: 'pass', message: 'dry' },
    {
      name: 'a bump after valve-off',
      facts: { ...quiet, rise_shape: 'settling' },
      outcome: 'pass',
      message: 'settling',
    },
    {
      name: 'it slackens',
      facts: { ...quiet, rise_shape: 'moisture', rise_pa: 30 },
      outcome: 'pass',
      message: 'moisture',
    },
    { name: 'three readings', facts: isolated, outcome: 'not-evaluated', message: 'not-fitted' },
    ...riseExamples,
  ],
  judge(facts, { limit_pa, kind, dry_ratio, least_pa }) {
    const isolation = isolationOrProblem(facts);
    if ('problem' in isolation) return isolation.problem;
    const { rise_shape: shape, isolation_pa, rise_pa, leak_pa_per_s, leak_low_pa_per_s, leak_high_pa_per_s } = facts;
    const { vapour_rise_pa, smallest_rise_seen_pa_per_s: smallest } = facts;
    const evidence = {
      rise_shape: shape,
      rise_model: facts.rise_model,
      isolation_s: isolation.isolationS,
      rise_pa,
      leak_pa_per_s,
      leak_low_pa_per_s,
      leak_high_pa_per_s,
      vapour_rise_pa,
      smallest_rise_seen_pa_per_s: smallest,
      tested_volume_l: facts.tested_volume_l,
      tested_volume_basis: facts.tested_volume_basis,
      leak_loss_low_kg_per_year: facts.leak_loss_low_kg_per_year,
      leak_loss_high_kg_per_year: facts.leak_loss_high_kg_per_year,
    };
    const notFitted = { outcome: 'not-evaluated' as const, message: 'not-fitted' as const, evidence };
    if (shape === undefined || shape === 'absent' || isolation_pa === undefined || rise_pa === undefined)
      return notFitted;
    if (shape === 'dry' || shape === 'settling' || shape === 'moisture')
      // A test of unknown sight shows nothing by seeing nothing.
      return smallest === undefined ? notFitted : { outcome: 'pass', message: shape, evidence };
    if (leak_pa_per_s === undefined || leak_low_pa_per_s === undefined || leak_high_pa_per_s === undefined)
      return notFitted;
    const leak = { value: leak_pa_per_s, unit: 'Pa/s' as const, evidence };
    if (shape === 'undecided' || leak_low_pa_per_s === 0) {
      const roomPa = kind.value === 'level' ? limit_pa.value - isolation_pa : limit_pa.value;
      const dryPa = Math.max(least_pa.value, dry_ratio.value * roomPa);
      const leak_most_pa = leak_high_pa_per_s * isolation.isolationS;
      const limits = { limit_pa: limit_pa.value, limit_kind: kind.value, limit_source: limit_pa.source };
      const held = { limit: dryPa, unit: 'Pa' as const, evidence: { ...evidence, ...limits, leak_most_pa } };
      if (rise_pa <= dryPa && smallest !== undefined)
        return { ...held, value: rise_pa, outcome: 'pass', message: 'dry' };
      return leak_most_pa <= dryPa
        ? { ...held, value: leak_most_pa, outcome: 'pass', message: 'little' }
        : {
            ...leak,
            outcome: 'suspect',
            message: leak_low_pa_per_s > 0 ? 'undecided-steady' : 'undecided',
            evidence: held.evidence,
          };
    }
    const message = shape === 'mixed' && vapour_rise_pa !== undefined ? 'mixed' : 'leak';
    const isSized =
      facts.tested_volume_l !== undefined &&
      facts.leak_loss_low_kg_per_year !== undefined &&
      facts.leak_loss_high_kg_per_year !== undefined;
    return { ...leak, outcome: 'fail', message: isSized ? `${message}-sized` : message };
  },
});
