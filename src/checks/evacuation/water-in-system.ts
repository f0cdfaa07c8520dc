import { z } from 'zod';
import { check, limit } from '../check.ts';
import { vacuumLogExamples, vacuumLogMessages, vacuumLogProblem } from '../vacuum-log-problem.ts';

// 70 °F: water boils at 2505 Pa, 18 790 µm (IAPWS).
const pulled = {
  vacuum_readings: 900,
  pumped_until: 'isolation' as const,
  first_seen_pa: 50000,
  deepest_pa: 30,
  line_low_k: 294.26,
  water_vapour_pa: 2505,
};
const { line_low_k: _, water_vapour_pa: __, ...noClamp } = pulled;

const ruled = 'A film or a few drops boil off too fast to show here; the rise after valve-off tells more.';

/** Whether the pull-down stood where water boils off. */
export const waterInSystem = check({
  id: 'water-in-system',
  group: 'evacuation',
  gear: ['pump'],
  revisit: 'moisture',
  question: 'Did the pull-down stand still where water boils off?',
  needs: ['first_seen_pa', 'deepest_pa'],
  limits: {
    stall_s: limit({
      description:
        'Time that the pressure stands at the vapour pressure of water, from which there was free water; a pump that is closed off in between, for oil or another hose, is back sooner',
      unit: 's',
      schema: z.number().min(0).max(604800),
      default: 300,
      source: 'common-practice',
    }),
    seen_from_pa: limit({
      description: 'Pressure from which the pull-down must show where the temperature of the pipe was not logged',
      unit: 'Pa',
      schema: z.number().positive().max(101325),
      default: 2500,
      source: 'common-practice',
    }),
  },
  messages: {
    ...vacuumLogMessages,
    'free-water':
      'The pull-down stood for {stall_s} at {stall_pa}; water at {line_low_k} boils off at {water_vapour_pa}, and lower once boiling has cooled it. There was free water in the system, unless the pump was closed off meanwhile.',
    brief:
      'The pull-down stood for {stall_s} at {stall_pa}, near the {water_vapour_pa} at which water at {line_low_k} boils off: some free water, or the pump was closed off for a while.',
    unplaced:
      'The pull-down stood for {stall_s} at {stall_pa}, as with free water; the temperature of the pipe was not logged, so it is not sure that water boils off there.',
    ice: 'The pull-down stood for {stall_s} at {stall_pa}, near where water freezes (611.7 Pa, 4 588 µm). There may be ice, which goes slowly and makes a vacuum look dry.',
    none: `The pull-down did not stand at {water_vapour_pa}, where water at {line_low_k} boils off. ${ruled}`,
    'none-by-room-temperature': `The pull-down did not stand where water boils off at common temperatures; that of the pipe was not logged. ${ruled}`,
    'no-pull': 'The log shows no pull-down, so it cannot show water boiling off.',
    'not-seen': 'The log does not show the pressures at which water would boil off.',
    'not-deep-enough':
      'The vacuum reached {deepest_pa} and never passed {water_vapour_pa}, where water at {line_low_k} boils off, so nothing is said of water.',
  },
  teach:
    'A pump that works and a pressure that stands still means water boiling. Go on until it lets go, break with dry nitrogen, warm the low spots, change the pump oil since the water is in it now, and pull again. Ask how it got in: a line left open, a flush, a leak in the rain.',
  references: ['iapws-sr1-86', 'iapws-r14-08', 'common-practice'],
  examples: [
    {
      name: 'six minutes at the vapour pressure',
      facts: { ...pulled, stall_s: 360, stall_pa: 2480, stall_at: 'vapour' },
      outcome: 'fail',
      message: 'free-water',
    },
    {
      name: 'four minutes there, which a pump that was closed off explains as well',
      facts: { ...pulled, stall_s: 240, stall_pa: 2480, stall_at: 'vapour' },
      outcome: 'suspect',
      message: 'brief',
    },
    {
      name: 'six minutes near where water boils off at common temperatures, no clamp',
      facts: { ...noClamp, stall_s: 360, stall_pa: 2480 },
      outcome: 'suspect',
      message: 'unplaced',
    },
    {
      name: 'ten minutes at the triple point',
      facts: { ...pulled, stall_s: 600, stall_pa: 610, stall_at: 'ice' },
      outcome: 'suspect',
      message: 'ice',
    },
    { name: 'no stand', facts: pulled, outcome: 'pass', message: 'none' },
    { name: 'no stand, no clamp', facts: noClamp, outcome: 'pass', message: 'none-by-room-temperature' },
    {
      name: 'the gauge reads from 1 000 Pa on',
      facts: { ...pulled, first_seen_pa: 1000 },
      outcome: 'not-evaluated',
      message: 'not-seen',
    },
    {
      name: 'the same without a clamp',
      facts: { ...noClamp, first_seen_pa: 1000 },
      outcome: 'not-evaluated',
      message: 'not-seen',
    },
    {
      name: 'what the gauge showed first was not kept, but it shows where the speed was measured from',
      facts: { ...pulled, first_seen_pa: undefined, pumped_from_pa: 5000 },
      outcome: 'pass',
      message: 'none',
    },
    {
      name: 'a pull that ended at 30 mbar',
      facts: { ...pulled, deepest_pa: 3000 },
      outcome: 'not-evaluated',
      message: 'not-deep-enough',
    },
    { name: 'log begins isolated', facts: { vacuum_readings: 900 }, outcome: 'not-evaluated', message: 'no-pull' },
    ...vacuumLogExamples,
  ],
  judge(facts, { stall_s, seen_from_pa }) {
    const problem = vacuumLogProblem(facts);
    if (problem !== undefined) return problem;
    const { stall_s: stoodS, stall_pa, stall_at, deepest_pa, line_low_k, water_vapour_pa } = facts;
    const first_seen_pa = facts.first_seen_pa ?? facts.pumped_from_pa;
    const evidence = { stall_s: stoodS, stall_pa, stall_at, first_seen_pa, deepest_pa, line_low_k, water_vapour_pa };
    const hasTemperature = line_low_k !== undefined && water_vapour_pa !== undefined;
    if (stoodS !== undefined && stall_pa !== undefined) {
      const result = { value: stoodS, limit: stall_s.value, unit: 's' as const };
      const held = { ...evidence, limit_source: stall_s.source };
      if (stall_at === 'ice') return { ...result, outcome: 'suspect', message: 'ice', evidence: held };
      if (!hasTemperature) return { ...result, outcome: 'suspect', message: 'unplaced', evidence: held };
      return stoodS >= stall_s.value
        ? { ...result, outcome: 'fail', message: 'free-water', evidence: held }
        : { ...result, outcome: 'suspect', message: 'brief', evidence: held };
    }
    if (facts.pumped_until === undefined) return { outcome: 'not-evaluated', message: 'no-pull', evidence };
    const boilsPa = hasTemperature ? water_vapour_pa : seen_from_pa.value;
    if (first_seen_pa === undefined || first_seen_pa < boilsPa || deepest_pa === undefined)
      return { outcome: 'not-evaluated', message: 'not-seen', evidence };
    if (!hasTemperature)
      return deepest_pa < boilsPa
        ? { outcome: 'pass', message: 'none-by-room-temperature', evidence }
        : { outcome: 'not-evaluated', message: 'not-seen', evidence };
    return deepest_pa < boilsPa
      ? { outcome: 'pass', message: 'none', evidence }
      : { outcome: 'not-evaluated', message: 'not-deep-enough', evidence };
  },
});
