import { z } from 'zod';
import { check, limit } from '../check.ts';
import { lossSize } from '../leak-kind.ts';
import { evidenceAsRead, judgeAsRead } from '../pressure-as-read.ts';
import { pressureHoldExamples, pressureHoldMessages, pressureHoldOrProblem } from '../pressure-test-problem.ts';
import { slackRatio } from '../slack-ratio.ts';

// An hour at 300 psig at sea level, the first ten minutes for settling; no temperature.
const unclamped = {
  pressure_readings: 900,
  pressure_hold_start_s: 300,
  pressure_settled_s: 900,
  pressure_hold_end_s: 3900,
  held_test_pa: 2169752,
  end_test_pa: 2128383,
  read_drop_pa: 41369,
  explaining_cooling_k: 5.6,
};
// 70 °F to 60 °F: 294.06 psig are to be expected, and 294.0 are read.
const steady = {
  ...unclamped,
  held_line_k: 294.26,
  end_line_k: 288.71,
  coldest_line_k: 288.71,
  warmest_line_k: 294.26,
  expected_end_test_pa: 2128797,
  pressure_drop_pa: 414,
  pressure_drop_low_pa: -4000,
  pressure_drop_high_pa: 4800,
  pressure_drop_sure_pa: -5400,
  smallest_drop_seen_pa: 6900,
};
// Three psi less than that.
const lost = {
  ...steady,
  end_test_pa: 2108113,
  read_drop_pa: 61639,
  explaining_cooling_k: 8.4,
  pressure_drop_pa: 20684,
  pressure_drop_low_pa: 16000,
  pressure_drop_high_pa: 25400,
  pressure_drop_sure_pa: 14500,
};
// About what such a drop in 5 L of R-410A amounts to, in an hour and in a day; the examples only show how it is said.
const large = { ...lost, tested_volume_l: 5, test_loss_low_kg_per_year: 10, test_loss_high_kg_per_year: 24 };
const small = {
  ...lost,
  pressure_hold_end_s: 86700,
  tested_volume_l: 5,
  test_loss_low_kg_per_year: 0.36,
  test_loss_high_kg_per_year: 0.85,
};
const near = { ...lost, pressure_drop_low_pa: 900, pressure_drop_high_pa: 40000, pressure_drop_sure_pa: -3000 };

const course =
  'In {judged_s} the pressure went from {held_test_pa} to {end_test_pa}, and the pipe from {held_line_k} to {end_line_k}; by the pipe alone {expected_end_test_pa} was to be expected.';
const drop =
  'By all readings together the corrected drop is {pressure_drop_pa} ({pressure_drop_low_pa} to {pressure_drop_high_pa}, 95 %)';
const dropped = `${course} ${drop}, of which {pressure_drop_sure_pa} is sure at 99.9 %; the allowance is {allowed_drop_pa}.`;
const standing = 'standing at 70 °F (21 °C); take that as an order of magnitude.';
const find =
  'Look for it with soap while the pressure is on: at flares, brazed joints, valve cores and caps, and at the gauge, the valve and the hose of the test itself.';
const fell =
  'In {judged_s} the pressure fell by {read_drop_pa} as read, from {held_test_pa} to {end_test_pa}, and the temperature of the pipe was not logged from end to end.';

/** Whether the test pressure held, corrected for temperature. */
export const pressureNotHeld = check({
  id: 'pressure-not-held',
  group: 'pressure-test',
  revisit: 'leak',
  question: 'Did the test pressure hold, once its temperature is allowed for?',
  needs: ['held_test_pa', 'pressure_drop_pa', 'pressure_drop_sure_pa', 'smallest_drop_seen_pa'],
  limits: {
    allowed_drop_pa: limit({
      description: 'Drop, corrected for temperature, that is no matter; 0: any that is surely one',
      unit: 'Pa',
      schema: z.number().min(0).max(30000000),
      default: 0,
      source: 'common-practice',
    }),
    asked_s: limit({
      description: 'Length of the hold; a shorter one may fail, but does not pass',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 900,
      source: 'common-practice',
      recorded: 'test_pressure_hold_s',
    }),
    slack_ratio: slackRatio,
    seen_ratio: limit({
      description:
        'A hold that would not have told a drop of this ratio of the test pressure, as gauges count, shows nothing',
      schema: z.number().positive().max(1),
      default: 0.1,
      source: 'common-practice',
    }),
    swing_k: limit({
      description:
        'Where the temperature of the pipe was not logged: a drop that a cooling of the gas by this much explains is not judged',
      unit: 'K',
      schema: z.number().min(0).max(100),
      default: 15,
      source: 'common-practice',
    }),
  },
  messages: {
    ...pressureHoldMessages,
    held: `${course} ${drop}: none beyond what gauge and temperature can tell. A drop of {smallest_drop_seen_pa} would have shown, four times of five.`,
    allowed: `${course} ${drop}: there is one, and none beyond the {allowed_drop_pa} allowed that gauge and temperature can tell.`,
    maybe: `${course} ${drop}; the allowance is {allowed_drop_pa}. That looks like a leak, but gauge and temperature may still account for it; a longer hold would tell.`,
    dropped: `${dropped} ${find}`,
    'dropped-sized': `${dropped} On the {tested_volume_l} tested that is a leak that would lose between {test_loss_low_kg_per_year} and {test_loss_high_kg_per_year} a year, ${standing} ${find}`,
    'dropped-whole-charge': `${dropped} On the {tested_volume_l} tested such a leak may lose the whole charge within a year or far sooner, ${standing} ${find}`,
    short: `${course} ${drop}: none so far. The system was shut in for {hold_s}, too briefly to show that it holds for the {asked_s} asked for.`,
    'too-blind': `${course} ${drop}. Of that hold a drop would have to be {smallest_drop_seen_pa} to be told, so that it shows nothing either way.`,
    rose: `${course} It ended higher than that by more than gauge and temperature can tell: the clamp sits in the shade or off the pipe, or the gas grew warmer elsewhere. A leak may hide behind it.`,
    'no-temperature': `${fell} A cooling of the gas by {explaining_cooling_k} explains it; with the temperature logged the test could be judged.`,
    'no-temperature-large': `${fell} To explain it the gas would have to have cooled by {explaining_cooling_k}, more than the {swing_cooling_k} that a day and a night are taken to make. Look for a leak, and log the temperature of the pipe.`,
    'no-temperature-no-fall':
      'In {judged_s} the pressure did not fall as read: it went from {held_test_pa} to {end_test_pa}. The temperature of the pipe was not logged from end to end, and gas that grew warmer may hide a drop; with the temperature logged the test could be judged.',
    'not-known': 'The hold does not have the readings that it takes to tell a drop from the temperature.',
  },
  teach:
    'Pressure follows temperature: 10 °F (5.6 K) of cooling take 6 psi (0.4 bar) off 300 psig (20.7 bar as gauges count). Let the gas settle after filling, since filling warms it. Put the clamp on the pipe that holds most of the gas, wrapped and out of the sun, and log it all through, beside the pressure. What is left of a drop is looked for with soap while the pressure is on; let it off before a joint is opened or soldered. Dry nitrogen only, never oxygen or air, by a regulator and with a relief device.',
  references: ['span-2000', 'leak-regimes', 'common-practice'],
  examples: [
    { name: '6 psi down, as the pipe cooled by 10 °F', facts: steady, outcome: 'pass', message: 'held' },
    { name: '3 psi less than the temperature explains', facts: lost, outcome: 'fail', message: 'dropped' },
    {
      name: 'the same in a day, on a volume that is known',
      facts: small,
      outcome: 'fail',
      message: 'dropped-sized',
    },
    {
      name: 'more than 20 kg a year, and the charge is not known',
      facts: large,
      outcome: 'fail',
      message: 'dropped-whole-charge',
    },
    {
      name: 'all of a charge of half a kilogram within a year',
      facts: { ...small, charge_target_kg: 0.5 },
      outcome: 'fail',
      message: 'dropped-whole-charge',
    },
    {
      name: 'the same drop where the rule allows 5 psi',
      facts: lost,
      limits: { allowed_drop_pa: 34474 },
      outcome: 'pass',
      message: 'allowed',
    },
    {
      name: 'an hour where a day is asked for',
      facts: steady,
      limits: { asked_s: 86400 },
      outcome: 'not-evaluated',
      message: 'short',
    },
    {
      name: 'a hold in which 40 psi could go unseen',
      facts: { ...steady, pressure_drop_low_pa: -150000, pressure_drop_high_pa: 150000, smallest_drop_seen_pa: 276000 },
      outcome: 'not-evaluated',
      message: 'too-blind',
    },
    { name: 'the same drop by a coarse gauge', facts: near, outcome: 'suspect', message: 'maybe' },
    {
      name: 'the sun on the line set, the clamp in the shade',
      facts: {
        ...steady,
        end_test_pa: 2190000,
        read_drop_pa: -20248,
        explaining_cooling_k: -2.8,
        end_line_k: 294.86,
        warmest_line_k: 294.86,
        coldest_line_k: 294.26,
        expected_end_test_pa: 2174200,
        pressure_drop_pa: -15800,
        pressure_drop_low_pa: -20400,
        pressure_drop_high_pa: -11200,
        pressure_drop_sure_pa: -21800,
      },
      outcome: 'suspect',
      message: 'rose',
    },
    {
      name: '6 psi down, no clamp',
      facts: unclamped,
      outcome: 'not-evaluated',
      message: 'no-temperature',
    },
    {
      name: '30 psi down, no clamp',
      facts: { ...unclamped, end_test_pa: 1962909, read_drop_pa: 206843, explaining_cooling_k: 28 },
      outcome: 'suspect',
      message: 'no-temperature-large',
    },
    {
      name: '3 psi up, no clamp',
      facts: { ...unclamped, end_test_pa: 2190436, read_drop_pa: -20684, explaining_cooling_k: -2.8 },
      outcome: 'not-evaluated',
      message: 'no-temperature-no-fall',
    },
    {
      name: 'both ends with a clamp, and too few readings between them to tell a drop',
      facts: {
        ...unclamped,
        explaining_cooling_k: undefined,
        held_line_k: 294.26,
        end_line_k: 288.71,
        expected_end_test_pa: 2128797,
      },
      outcome: 'not-evaluated',
      message: 'not-known',
    },
    {
      name: 'how small a drop would have shown is not known',
      facts: { ...steady, smallest_drop_seen_pa: undefined },
      outcome: 'not-evaluated',
      message: 'not-known',
    },
    ...pressureHoldExamples,
  ],
  judge(facts, { allowed_drop_pa, asked_s, slack_ratio, seen_ratio, swing_k }) {
    const hold = pressureHoldOrProblem(facts);
    if ('problem' in hold) return hold.problem;
    const { pressure_drop_pa, pressure_drop_low_pa, pressure_drop_high_pa, pressure_drop_sure_pa } = facts;
    const { end_test_pa, expected_end_test_pa, held_line_k, end_line_k, smallest_drop_seen_pa } = facts;
    const asRead = evidenceAsRead(facts, hold);
    if (pressure_drop_pa === undefined) return judgeAsRead(facts, hold, swing_k);
    const corrected = {
      ...asRead,
      expected_end_test_pa,
      held_line_k,
      end_line_k,
      coldest_line_k: facts.coldest_line_k,
      warmest_line_k: facts.warmest_line_k,
      pressure_drop_pa,
      pressure_drop_low_pa,
      pressure_drop_high_pa,
      pressure_drop_sure_pa,
      smallest_drop_seen_pa,
      tested_volume_l: facts.tested_volume_l,
      tested_volume_basis: facts.tested_volume_basis,
      test_loss_low_kg_per_year: facts.test_loss_low_kg_per_year,
      test_loss_high_kg_per_year: facts.test_loss_high_kg_per_year,
    };
    const notKnown = { outcome: 'not-evaluated' as const, message: 'not-known' as const, evidence: corrected };
    const interval = { lowPa: pressure_drop_low_pa, highPa: pressure_drop_high_pa, surePa: pressure_drop_sure_pa };
    const { lowPa, highPa, surePa } = interval;
    if (lowPa === undefined || highPa === undefined || surePa === undefined) return notKnown;
    const shown = [end_test_pa, expected_end_test_pa, held_line_k, end_line_k];
    if (shown.some((figure) => figure === undefined)) return notKnown;
    const allowedPa = allowed_drop_pa.value;
    const result = {
      value: pressure_drop_pa,
      limit: allowedPa,
      unit: 'Pa' as const,
      evidence: { ...corrected, allowed_drop_pa: allowedPa, allowed_source: allowed_drop_pa.source },
    };
    if (surePa > allowedPa) {
      const size = lossSize(facts, facts.test_loss_low_kg_per_year, facts.test_loss_high_kg_per_year);
      return { ...result, outcome: 'fail', message: size === undefined ? 'dropped' : `dropped-${size}` };
    }
    const isOver = lowPa > allowedPa || (lowPa > 0 && pressure_drop_pa > allowedPa);
    if (isOver) return { ...result, outcome: 'suspect', message: 'maybe' };
    if (highPa < 0) return { ...result, outcome: 'suspect', message: 'rose' };
    if (lowPa > 0) return { ...result, outcome: 'pass', message: 'allowed' };
    // A test of unknown sight shows nothing by seeing nothing.
    if (smallest_drop_seen_pa === undefined) return notKnown;
    if (smallest_drop_seen_pa > seen_ratio.value * (hold.heldPa - hold.airPa))
      return {
        outcome: 'not-evaluated',
        message: 'too-blind',
        evidence: { ...result.evidence, seen_ratio: seen_ratio.value, seen_source: seen_ratio.source },
      };
    if (hold.holdS < asked_s.value * (1 - slack_ratio.value))
      return {
        outcome: 'not-evaluated',
        message: 'short',
        evidence: { ...result.evidence, asked_s: asked_s.value, asked_source: asked_s.source },
      };
    return { ...result, outcome: 'pass', message: 'held' };
  },
});
