import { check } from '../check.ts';
import { riseLimits } from '../rise-limits.ts';
import { isolationOrProblem, riseExamples, riseMessages } from '../rise-problem.ts';

// Ten minutes from 250 µm on; a steady rise of 0.3 µm a minute would have shown, one of 3 been known for a leak.
const seen = {
  vacuum_readings: 900,
  isolation_start_s: 1200,
  isolation_end_s: 1800,
  isolation_pa: 33.330592,
  smallest_rise_seen_pa_per_s: 0.00066661184,
  smallest_leak_seen_pa_per_s: 0.0066661184,
};
const blind = {
  ...seen,
  isolation_end_s: 1320,
  smallest_rise_seen_pa_per_s: 0.4,
  smallest_leak_seen_pa_per_s: 1.2,
};

const rise = 'The least steady climb that this test could have shown is {smallest_rise_seen_pa_per_s}';
const leak = 'to be told from moisture or outgassing a leak would have to climb by {smallest_leak_seen_pa_per_s}';
const leakTest = 'The standing pressure test is the leak test; a vacuum pulls with one atmosphere only.';
const whole = 'In {judged_s} that is more than the {room_pa} left for it: a leak could use up the allowance unseen.';

/** Whether the rise test could have seen a leak that matters to its own limit. */
export const riseTestBlind = check({
  id: 'rise-test-blind',
  group: 'rise',
  asks: 'test-made',
  revisit: 'leak',
  question: 'Could the rise test have seen a leak at all?',
  needs: ['smallest_rise_seen_pa_per_s', 'smallest_leak_seen_pa_per_s', 'isolation_pa'],
  limits: riseLimits,
  messages: {
    ...riseMessages,
    sees: `${rise}; ${leak}. ${leakTest}`,
    blind: `${rise}. ${whole} ${leakTest}`,
    'no-room': 'The pressure at valve-off, {isolation_pa}, left no room below the {limit_pa} allowed.',
    'not-known': 'The isolation does not have the readings that it takes to tell how small a leak would have shown.',
  },
  teach:
    'A short test with a coarse gauge on a large circuit passes everything. Watch for longer, start from a deeper vacuum, use a gauge with a finer step, log every few seconds; and trust the nitrogen for leaks.',
  references: ['vacuum-rate-of-rise', 'common-practice'],
  examples: [
    { name: 'ten minutes with a fine gauge', facts: seen, outcome: 'pass', message: 'sees' },
    { name: 'two minutes with a coarse one', facts: blind, outcome: 'suspect', message: 'blind' },
    {
      name: 'coarse, but a rise of 500 µm is allowed',
      facts: blind,
      limits: { kind: 'rise', limit_pa: 66.661184 },
      outcome: 'pass',
      message: 'sees',
    },
    {
      name: 'forty seconds, where what it could have shown would use up the allowance in ten minutes',
      facts: { ...seen, isolation_end_s: 1240, smallest_rise_seen_pa_per_s: 0.1, smallest_leak_seen_pa_per_s: 0.2 },
      limits: { after_s: 600 },
      outcome: 'suspect',
      message: 'blind',
    },
    {
      name: 'valved off at 600 µm',
      facts: { ...seen, isolation_pa: 80 },
      outcome: 'not-evaluated',
      message: 'no-room',
    },
    {
      name: 'three readings',
      facts: { ...seen, smallest_rise_seen_pa_per_s: undefined },
      outcome: 'not-evaluated',
      message: 'not-known',
    },
    ...riseExamples,
  ],
  judge(facts, { limit_pa, kind, after_s }) {
    const isolation = isolationOrProblem(facts);
    if ('problem' in isolation) return isolation.problem;
    const { isolationS } = isolation;
    const { isolation_pa, smallest_rise_seen_pa_per_s: rise, smallest_leak_seen_pa_per_s: leak } = facts;
    if (rise === undefined || leak === undefined || isolation_pa === undefined)
      return { outcome: 'not-evaluated', message: 'not-known', evidence: { isolation_s: isolationS } };
    // What is allowed must be used up by the time at which the limit counts, however short the test was.
    const judged_s = after_s.value > 0 ? after_s.value : isolationS;
    const room_pa = kind.value === 'level' ? limit_pa.value - isolation_pa : limit_pa.value;
    const evidence = {
      isolation_s: isolationS,
      judged_s,
      isolation_pa,
      smallest_rise_seen_pa_per_s: rise,
      smallest_leak_seen_pa_per_s: leak,
      room_pa,
      limit_pa: limit_pa.value,
      limit_kind: kind.value,
      limit_source: limit_pa.source,
    };
    if (room_pa <= 0) return { outcome: 'not-evaluated', message: 'no-room', evidence };
    const result = { value: rise * judged_s, limit: room_pa, unit: 'Pa' as const, evidence };
    if (rise * judged_s > room_pa) return { ...result, outcome: 'suspect', message: 'blind' };
    return { ...result, outcome: 'pass', message: 'sees' };
  },
});
