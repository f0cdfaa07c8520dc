import { z } from 'zod';
import type { Facts } from '../../records/tables/facts.ts';
import { pumpFloorPa } from '../../facts/pull-down/predicted-pull-down.ts';
import { check, limit } from '../check.ts';
import { vacuumLogExamples, vacuumLogMessages, vacuumLogProblem } from '../vacuum-log-problem.ts';

// From 50 000 to 1 000 Pa, ln 50 = 3.9 (less the floor of the pump, which changes little): 98 s at 0.04 per s.
const pumped = {
  vacuum_readings: 900,
  pumped_until: 'isolation' as const,
  pumped_from_pa: 50000,
  pumped_to_pa: 1000,
  predicted_pump_rate_per_s: 0.04,
};

const pull =
  'From {pumped_from_pa} to {pumped_to_pa} the pull-down took {pumped_s}; dry gas through the recorded pump and hose, the cores out unless the record has them in, takes {predicted_s}.';
const stood = 'Of that, it stood for {stall_s} at {stall_pa}, as with water boiling off';
const slow = 'That is slow: {speed_ratio} of the speed.';
const verySlow = 'That is very slow: {speed_ratio} of the speed.';
const causes = 'Cores left in, a narrow or kinked hose, a valve half open, or a tired pump.';
const rest = 'without that it was {rest_speed_ratio} of the speed';

/** Whether the pump pulled as fast as pump, hose and cores let expect. */
export const slowPullDown = check({
  id: 'slow-pull-down',
  group: 'evacuation',
  gear: ['pump', 'hose-set'],
  revisit: 'moisture',
  question: 'Did the pump pull as fast as this pump and hose should?',
  needs: ['pump_rate_per_s', 'predicted_pump_rate_per_s'],
  limits: {
    slow_ratio: limit({
      description: 'Measured to predicted pumping speed, below which the pull-down is suspect',
      schema: z.number().positive().max(1),
      default: 0.5,
      source: 'common-practice',
    }),
    very_slow_ratio: limit({
      description: 'Measured to predicted pumping speed, below which the pull-down fails',
      schema: z.number().positive().max(1),
      default: 0.25,
      source: 'common-practice',
    }),
  },
  messages: {
    ...vacuumLogMessages,
    'as-expected': pull,
    'as-expected-stalled': `${pull} ${stood}.`,
    stalled: `${pull} ${stood}; ${rest}: look for water before blaming the pump.`,
    slow: `${pull} ${slow}`,
    'slow-stalled': `${pull} ${slow} ${stood}; ${rest}, which is slow still: look for water first, then at hose and pump.`,
    'very-slow': `${pull} ${verySlow} ${causes}`,
    'very-slow-stalled': `${pull} ${verySlow} ${stood}; ${rest}, which is very slow still. ${causes}`,
    'no-pull': 'The log shows no pull-down, so the pump cannot be judged by it.',
    'no-pump':
      'The record lacks the speed of the pump; with it, hose bore and length, and what gives the volume, the pull-down could be predicted.',
    'no-hose':
      'The record lacks bore or length of the vacuum hose; without them the pull-down cannot be predicted, since the hose decides more than the pump.',
    'no-volume':
      'The record lacks what gives the volume (tested volume, or line set and capacity), so the pull-down cannot be predicted.',
    'not-seen': 'The log does not show the rough range of the pull-down, where the speed of a pump can be told.',
    'no-prediction':
      'There is nothing to hold the pull-down against; the record would need pump speed, hose bore and length, and what gives the volume.',
  },
  teach:
    'The hose decides: pull both cores with a core tool, use short hoses of 3/8 inch or wider, no manifold between pump and system. Then the pump: fresh oil, gas ballast closed at the end, and test it blanked off once in a while.',
  references: ['vacuum-conductance', 'common-practice'],
  examples: [
    {
      name: 'nearly as predicted',
      facts: { ...pumped, pump_rate_per_s: 0.035 },
      outcome: 'pass',
      message: 'as-expected',
    },
    { name: 'two fifths of it', facts: { ...pumped, pump_rate_per_s: 0.016 }, outcome: 'suspect', message: 'slow' },
    { name: 'a tenth of it', facts: { ...pumped, pump_rate_per_s: 0.004 }, outcome: 'fail', message: 'very-slow' },
    {
      name: 'a fifth of it, on a volume that may be half as large again',
      facts: { ...pumped, pump_rate_per_s: 0.008, tested_volume_l: 4, tested_volume_high_l: 6 },
      outcome: 'suspect',
      message: 'slow',
    },
    {
      name: 'a fifth of it, since it stood at the vapour pressure of water for six minutes of eight',
      facts: { ...pumped, pump_rate_per_s: 0.008, stall_s: 360, stall_pa: 2500, stall_at: 'vapour' },
      outcome: 'suspect',
      message: 'stalled',
    },
    {
      name: 'four fifths of it, though it stood for 20 s',
      facts: { ...pumped, pump_rate_per_s: 0.032, stall_s: 20, stall_pa: 2500, stall_at: 'vapour' },
      outcome: 'pass',
      message: 'as-expected-stalled',
    },
    {
      name: 'a tenth of it, and two fifths but for a stall of twelve minutes of sixteen',
      facts: { ...pumped, pump_rate_per_s: 0.004, stall_s: 730, stall_pa: 2500, stall_at: 'vapour' },
      outcome: 'suspect',
      message: 'slow-stalled',
    },
    {
      name: 'a tenth of it, and a stall of two minutes explains little of that',
      facts: { ...pumped, pump_rate_per_s: 0.004, stall_s: 120, stall_pa: 2500, stall_at: 'vapour' },
      outcome: 'fail',
      message: 'very-slow-stalled',
    },
    {
      name: 'a hundredth of it, of sixteen minutes fourteen in a stall, and slow still but for that',
      facts: {
        ...pumped,
        pumped_from_pa: 2230,
        pumped_to_pa: 304,
        pump_rate_per_s: 0.002,
        stall_s: 875,
        stall_pa: 364,
      },
      outcome: 'suspect',
      message: 'slow-stalled',
    },
    {
      name: 'a tenth of it; the stall was below the stretch that tells the speed',
      facts: { ...pumped, pump_rate_per_s: 0.004, stall_s: 730, stall_pa: 612, stall_at: 'ice' },
      outcome: 'fail',
      message: 'very-slow',
    },
    {
      name: 'log begins isolated',
      facts: { vacuum_readings: 900, rise_shape: 'leak' },
      outcome: 'not-evaluated',
      message: 'no-pull',
    },
    ...(['no-pump', 'no-hose', 'no-volume', 'not-seen'] as const).map((problem) => ({
      name: problem,
      facts: { vacuum_readings: 900, pumped_until: 'break' as const, prediction_problem: problem },
      outcome: 'not-evaluated' as const,
      message: problem,
    })),
    {
      name: 'no prediction was made',
      facts: { ...pumped, pump_rate_per_s: 0.03, predicted_pump_rate_per_s: undefined },
      outcome: 'not-evaluated',
      message: 'no-prediction',
    },
    ...vacuumLogExamples,
  ],
  judge(facts, { slow_ratio, very_slow_ratio }) {
    const problem = vacuumLogProblem(facts);
    if (problem !== undefined) return problem;
    const { pumped_from_pa: fromPa, pumped_to_pa: toPa, pump_rate_per_s: rate } = facts;
    const predicted = facts.predicted_pump_rate_per_s;
    const shown = { pumped_from_pa: fromPa, pumped_to_pa: toPa, pump_rate_per_s: rate };
    if (facts.pumped_until === undefined) return { outcome: 'not-evaluated', message: 'no-pull', evidence: shown };
    if (facts.prediction_problem !== undefined)
      return { outcome: 'not-evaluated', message: facts.prediction_problem, evidence: shown };
    if (fromPa === undefined || toPa === undefined || toPa <= pumpFloorPa || fromPa <= toPa || !rate)
      return { outcome: 'not-evaluated', message: 'not-seen', evidence: shown };
    if (!predicted) return { outcome: 'not-evaluated', message: 'no-prediction', evidence: shown };

    // As the speeds were made: the time is the one that was measured.
    const logs = Math.log((fromPa - pumpFloorPa) / (toPa - pumpFloorPa));
    const [pumpedS, predictedS] = [logs / rate, logs / predicted];
    const speed = rate / predicted;
    const stallS = Math.min(stallWithinS(facts, fromPa, toPa), pumpedS);
    // What is left is no less than the prediction: the ends of a stand are not that sharp.
    const restSpeed = predictedS / Math.max(pumpedS - stallS, predictedS);
    const stall = { stall_s: facts.stall_s, stall_pa: facts.stall_pa, rest_speed_ratio: restSpeed };
    const evidence = {
      ...shown,
      predicted_pump_rate_per_s: predicted,
      pumped_s: pumpedS,
      predicted_s: predictedS,
      speed_ratio: speed,
      tested_volume_l: facts.tested_volume_l,
      tested_volume_basis: facts.tested_volume_basis,
      pull_down_s: facts.pull_down_s,
      pull_down_predicted_s: facts.pull_down_predicted_s,
      ...(stallS > 0 ? stall : {}),
    };
    const result = {
      value: speed,
      limit: slow_ratio.value,
      evidence: { ...evidence, limit_source: slow_ratio.source },
    };
    const isStalled = stallS > 0;
    if (speed >= slow_ratio.value)
      return { ...result, outcome: 'pass', message: isStalled ? 'as-expected-stalled' : 'as-expected' };
    // Only what is left without the stall is the pump's.
    if (isStalled && restSpeed >= slow_ratio.value) return { ...result, outcome: 'suspect', message: 'stalled' };
    const pumps = { ...result, value: isStalled ? restSpeed : speed };
    // The larger the volume may be, the slower the pump may have pulled.
    const spread = Math.max(1, (facts.tested_volume_high_l ?? 0) / (facts.tested_volume_l || Number.POSITIVE_INFINITY));
    // Before and after a stand water boils off as well: where it took most of the time, the rest is no clean measure.
    if (pumps.value * spread >= very_slow_ratio.value || stallS > pumpedS / 2)
      return { ...pumps, outcome: 'suspect', message: isStalled ? 'slow-stalled' : 'slow' };
    return {
      ...pumps,
      limit: very_slow_ratio.value,
      evidence: { ...evidence, limit_source: very_slow_ratio.source },
      outcome: 'fail',
      message: isStalled ? 'very-slow-stalled' : 'very-slow',
    };
  },
});

/** How long the pressure stood within that stretch of the pull-down [s]. */
function stallWithinS({ stall_s = 0, stall_pa }: Partial<Facts>, fromPa: number, toPa: number): number {
  return stall_pa !== undefined && stall_pa >= toPa && stall_pa <= fromPa ? stall_s : 0;
}
