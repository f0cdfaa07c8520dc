import { z } from 'zod';
import { check, limit } from '../check.ts';

/** Below this people speak of microns [Pa]. */
const deepPa = 3400;

/** Whether the compressor ever ran in a vacuum. */
export const compressorInVacuum = check({
  id: 'compressor-in-vacuum',
  group: 'run-test',
  revisit: 'running',
  question: 'Did the compressor ever run while the system was in a vacuum?',
  needs: ['compressor_readings', 'vacuum_run_s'],
  limits: {
    longest_s: limit({
      description: 'Running below the pressure of the air that is no matter: clocks and gauges lag by as much',
      unit: 's',
      schema: z.number().min(0).max(3600),
      default: 5,
      source: 'common-practice',
    }),
  },
  messages: {
    never: 'The compressor never ran below the pressure of the air.',
    ran: 'The compressor ran for {vacuum_run_s} while the system was below the pressure of the air, down to {lowest_gauge_pa}: in a vacuum its windings arc and its oil leaves it. Look at the log, and at the compressor.',
    'ran-deep':
      'The compressor ran for {vacuum_run_s} in a deep vacuum, down to {vacuum_run_pa}: in a vacuum its windings arc and its oil leaves it. Look at the log, and at the compressor.',
    'no-power': 'The power of the compressor was not logged together with a pressure.',
  },
  teach:
    'Never start, and never megger, a compressor in a vacuum: without gas between its windings they arc. Break the vacuum with the charge before the power goes on, and never pump a system down with its own compressor to a vacuum.',
  references: ['common-practice'],
  examples: [
    { name: 'never', facts: { compressor_readings: 200, vacuum_run_s: 0 }, outcome: 'pass', message: 'never' },
    {
      name: 'a minute at 2000 µm',
      facts: { compressor_readings: 200, vacuum_run_s: 60, vacuum_run_pa: 267 },
      outcome: 'fail',
      message: 'ran-deep',
    },
    {
      name: 'a minute at half the pressure of the air',
      facts: { compressor_readings: 200, vacuum_run_s: 60, vacuum_run_pa: 50000 },
      outcome: 'fail',
      message: 'ran',
    },
    { name: 'no power logged', facts: {}, outcome: 'not-evaluated', message: 'no-power' },
  ],
  judge({ compressor_readings, vacuum_run_s, vacuum_run_pa, atmosphere_pa }, { longest_s }) {
    if (compressor_readings === undefined || vacuum_run_s === undefined)
      return { outcome: 'not-evaluated', message: 'no-power', evidence: {} };
    const evidence = {
      compressor_readings,
      vacuum_run_s,
      vacuum_run_pa,
      lowest_gauge_pa: vacuum_run_pa,
      atmosphere_pa,
      limit_source: longest_s.source,
    };
    const result = { value: vacuum_run_s, limit: longest_s.value, unit: 's' as const, evidence };
    const ran = vacuum_run_s > longest_s.value && vacuum_run_pa !== undefined;
    if (!ran) return { ...result, outcome: 'pass', message: 'never' };
    return { ...result, outcome: 'fail', message: vacuum_run_pa < deepPa ? 'ran-deep' : 'ran' };
  },
});
