import { z } from 'zod';
import { check, limit } from '../check.ts';
import { leakKind, lossSize } from '../leak-kind.ts';
import { riseLimits } from '../rise-limits.ts';
import { isolationOrProblem, riseExamples, riseMessages } from '../rise-problem.ts';

const isolated = { vacuum_readings: 900, isolation_start_s: 1200, isolation_end_s: 1800, isolation_pa: 33.33 };
// 6 µm a minute, known to a third of it: 60 µm in ten minutes.
const climbs = {
  ...isolated,
  isolation_end_pa: 41.33,
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
// Of a charge of 3 kg that is all of it within a year.
const charged = { ...sized, charge_target_kg: 3 };
const bumped = { ...climbs, rise_pa: 14, settling_rise_pa: 6 };
const quiet = { ...isolated, rise_pa: 2, smallest_rise_seen_pa_per_s: 0.0004 };

const range = '{leak_pa_per_s} ({leak_low_pa_per_s} to {leak_high_pa_per_s})';
const steady = `The pressure climbed by ${range} without slackening, as a leak does.`;
const settled = `Of the rise of {rise_pa}, {settling_rise_pa} came at once, as pressures evened out; from then on it climbed by ${range} without slackening, as a leak does.`;
const partly = `Part of the rise slackened ({vapour_rise_pa}, moisture or outgassing), but ${range} of it did not, as with a leak.`;
const loss =
  'On the {tested_volume_l} tested that is a leak that would lose between {leak_loss_low_kg_per_year} and {leak_loss_high_kg_per_year} a year, standing at 70 °F (21 °C); take that as an order of magnitude.';
const whole =
  'On the {tested_volume_l} tested such a leak may lose the whole charge within a year or far sooner, standing at 70 °F (21 °C); take that as an order of magnitude.';
const causes =
  'It may sit in flares, brazed joints, valve cores and caps, or in the gauge, the valve and the hose of the test itself.';
const unseen = 'A climb of less than {smallest_rise_seen_pa_per_s} would not have shown.';
const noMatter = 'beside the limit up to {no_matter_pa} is no matter';

/** Whether the pressure of the isolated system climbed as with a leak. */
export const leaking = check({
  id: 'leaking',
  group: 'rise',
  gear: ['hose-set', 'gauge'],
  revisit: 'leak',
  question: 'Did the pressure climb steadily after valve-off, as it does with a leak?',
  needs: ['rise_shape', 'leak_pa_per_s', 'smallest_rise_seen_pa_per_s'],
  limits: {
    ...riseLimits,
    dry_ratio: limit({
      description:
        'A rise, or the most of it that may be a leak, up to this ratio of the room that the limit leaves at valve-off is no matter',
      schema: z.number().min(0).max(1),
      default: 0.1,
      source: 'common-practice',
    }),
    least_pa: limit({
      description: 'A rise, or the most of it that may be a leak, up to this is no matter',
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
    'leak-whole-charge': `${steady} ${whole} ${causes}`,
    settled: `${settled} ${causes}`,
    'settled-sized': `${settled} ${loss} ${causes}`,
    'settled-whole-charge': `${settled} ${whole} ${causes}`,
    mixed: `${partly} ${causes}`,
    'mixed-sized': `${partly} ${loss} ${causes}`,
    'mixed-whole-charge': `${partly} ${whole} ${causes}`,
    'small-leak': `A leak, small: of the rise of {rise_pa} in {isolation_s} ${range} did not slacken, {leak_most_pa} at most in {judged_s}; ${noMatter}.`,
    undecided:
      'The pressure rose by {rise_pa} in {isolation_s}: a leak of up to {leak_high_pa_per_s}, or moisture or outgassing. This curve cannot tell; a longer one might.',
    'undecided-steady':
      'The pressure rose by {rise_pa} in {isolation_s}. {leak_low_pa_per_s} to {leak_high_pa_per_s} of it is steady, as with a leak; the rest this curve cannot tell from moisture or outgassing. A longer one might.',
    little:
      'The pressure rose by {rise_pa} in {isolation_s}. This curve does not tell of what, but a leak is at most {leak_high_pa_per_s} of it, {leak_most_pa} in {judged_s}.',
    small: `The pressure rose by {rise_pa} in {isolation_s}; ${noMatter}. ${unseen}`,
    'not-risen': `The pressure did not rise in {isolation_s}. ${unseen}`,
    'over-range':
      'The pressure went above the gauge’s range after valve-off, so not all of the rise shows, and nothing is said of a leak.',
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
      name: 'all of a small charge within a year',
      facts: { ...climbs, ...charged },
      outcome: 'fail',
      message: 'leak-whole-charge',
    },
    {
      name: 'more than 20 kg a year, and the charge is not known',
      facts: { ...climbs, ...sized, leak_loss_high_kg_per_year: 21 },
      outcome: 'fail',
      message: 'leak-whole-charge',
    },
    {
      name: 'the same on top of moisture',
      facts: { ...mixed, ...charged },
      outcome: 'fail',
      message: 'mixed-whole-charge',
    },
    { name: 'after a jump of 45 µm at valve-off', facts: bumped, outcome: 'fail', message: 'settled' },
    {
      name: 'after a jump, on a volume that is known',
      facts: { ...bumped, ...sized },
      outcome: 'fail',
      message: 'settled-sized',
    },
    {
      name: 'after a jump, all of a small charge within a year',
      facts: { ...bumped, ...charged },
      outcome: 'fail',
      message: 'settled-whole-charge',
    },
    {
      name: 'a leak for sure, that adds 18 µm of the 250 µm that the limit leaves',
      facts: { ...climbs, rise_pa: 2.4, leak_pa_per_s: 0.004, leak_low_pa_per_s: 0.003, leak_high_pa_per_s: 0.005 },
      outcome: 'pass',
      message: 'small-leak',
    },
    {
      name: 'a leak for sure and small, on top of much moisture',
      facts: { ...mixed, leak_pa_per_s: 0.004, leak_low_pa_per_s: 0.003, leak_high_pa_per_s: 0.005 },
      outcome: 'pass',
      message: 'small-leak',
    },
    {
      name: 'it went above the range of the gauge, slackening',
      facts: { ...quiet, rise_shape: 'moisture', rise_pa: 1300, isolation_over: true },
      outcome: 'not-evaluated',
      message: 'over-range',
    },
    {
      name: 'it went above the range of the gauge, and what shows of it may be a leak',
      facts: { ...climbs, rise_shape: 'undecided', leak_low_pa_per_s: 0, isolation_over: true },
      outcome: 'suspect',
      message: 'undecided',
    },
    {
      name: 'lower at the end than at valve-off',
      facts: { ...quiet, rise_shape: 'dry', rise_pa: -0.3 },
      outcome: 'pass',
      message: 'not-risen',
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
      message: 'small',
    },
    {
      name: 'undecided, 25 µm of the 250 µm that the limit leaves',
      facts: { ...climbs, rise_shape: 'undecided', leak_low_pa_per_s: 0, rise_pa: 3.3 },
      outcome: 'pass',
      message: 'small',
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
    {
      name: 'an hour of it: what counts is what it makes in ten minutes',
      facts: { ...climbs, isolation_end_s: 4800, rise_pa: 48 },
      limits: { after_s: 600, dry_ratio: 0.5 },
      outcome: 'pass',
      message: 'small-leak',
    },
    {
      name: 'little in forty seconds, which may be much in ten minutes',
      facts: { ...climbs, isolation_end_s: 1240, rise_pa: 1, rise_shape: 'undecided', leak_low_pa_per_s: 0 },
      limits: { after_s: 600 },
      outcome: 'suspect',
      message: 'undecided',
    },
    ...riseExamples,
  ],
  judge(facts, { limit_pa, kind, after_s, dry_ratio, least_pa }) {
    const isolation = isolationOrProblem(facts);
    if ('problem' in isolation) return isolation.problem;
    const { isolationS } = isolation;
    const { rise_shape: shape, isolation_pa, rise_pa, leak_pa_per_s, leak_low_pa_per_s, leak_high_pa_per_s } = facts;
    const { smallest_rise_seen_pa_per_s: smallest } = facts;
    const roomPa = kind.value === 'level' ? limit_pa.value - (isolation_pa ?? 0) : limit_pa.value;
    const no_matter_pa = Math.max(least_pa.value, dry_ratio.value * roomPa);
    // A leak is held against what is allowed by the time that the limit counts, however long it was watched.
    const judged_s = after_s.value > 0 ? after_s.value : isolationS;
    const leak_most_pa = leak_high_pa_per_s === undefined ? undefined : leak_high_pa_per_s * judged_s;
    const isSmallRise = rise_pa !== undefined && rise_pa <= no_matter_pa * Math.min(1, isolationS / judged_s);
    const evidence = {
      rise_shape: shape,
      rise_model: facts.rise_model,
      isolation_s: isolationS,
      judged_s,
      rise_pa,
      leak_pa_per_s,
      leak_low_pa_per_s,
      leak_high_pa_per_s,
      leak_most_pa,
      vapour_rise_pa: facts.vapour_rise_pa,
      settling_rise_pa: facts.settling_rise_pa,
      smallest_rise_seen_pa_per_s: smallest,
      tested_volume_l: facts.tested_volume_l,
      tested_volume_basis: facts.tested_volume_basis,
      leak_loss_low_kg_per_year: facts.leak_loss_low_kg_per_year,
      leak_loss_high_kg_per_year: facts.leak_loss_high_kg_per_year,
    };
    const notFitted = { outcome: 'not-evaluated' as const, message: 'not-fitted' as const, evidence };
    if (shape === undefined || shape === 'absent' || isolation_pa === undefined || rise_pa === undefined)
      return notFitted;
    const limits = { limit_pa: limit_pa.value, limit_kind: kind.value, limit_source: limit_pa.source, no_matter_pa };
    const held = { limit: no_matter_pa, unit: 'Pa' as const, evidence: { ...evidence, ...limits } };
    const isLeakless = shape === 'dry' || shape === 'settling' || shape === 'moisture';
    const isLittle = isLeakless || isSmallRise || (leak_most_pa ?? Number.POSITIVE_INFINITY) <= no_matter_pa;
    // What went on above the gauge's range may have been anything.
    if (isLittle && facts.isolation_over) return { outcome: 'not-evaluated', message: 'over-range', evidence };
    // A test of unknown sight shows nothing by seeing nothing.
    if (isLeakless && smallest === undefined) return notFitted;
    if (smallest !== undefined && rise_pa <= 0)
      return { ...held, value: rise_pa, outcome: 'pass', message: 'not-risen' };
    if (isLeakless) return { outcome: 'pass', message: shape, evidence };
    if (leak_pa_per_s === undefined || leak_low_pa_per_s === undefined || leak_most_pa === undefined) return notFitted;
    const isSure = shape !== 'undecided' && leak_low_pa_per_s > 0;
    if (isSure && leak_most_pa <= no_matter_pa)
      return { ...held, value: leak_most_pa, outcome: 'pass', message: 'small-leak' };
    if (smallest !== undefined && isSmallRise) return { ...held, value: rise_pa, outcome: 'pass', message: 'small' };
    if (leak_most_pa <= no_matter_pa) return { ...held, value: leak_most_pa, outcome: 'pass', message: 'little' };
    const leak = { value: leak_pa_per_s, unit: 'Pa/s' as const, evidence };
    if (!isSure) {
      const message = leak_low_pa_per_s > 0 ? 'undecided-steady' : 'undecided';
      return { ...leak, outcome: 'suspect', message, evidence: held.evidence };
    }
    const size = lossSize(facts, facts.leak_loss_low_kg_per_year, facts.leak_loss_high_kg_per_year);
    const message = leakKind(facts);
    return { ...leak, outcome: 'fail', message: size === undefined ? message : `${message}-${size}` };
  },
});
