import { checkNamed } from '../../src/checks/checks.ts';
import { asRecorded, resolveLimits } from '../../src/checks/policy.ts';
import { protocols } from '../../src/simulate/protocols.ts';
import { drawTrial } from './draw-trial.ts';
import { runTrial } from './run-trial.ts';
import { vacuumFacts } from '../../src/facts/vacuum-facts.ts';
import { trialMaterial } from './trial-material.ts';

const HOLD_S = 900;

/**
 * The usual advice, carried out: down to 250 µm, held for 15 minutes beyond it, isolated 5 or 10 minutes, at most 500 µm (common practice,
 * no source), on new, dry and tight systems by the gauge at the system. What do the checks say?
 *
 * @returns check, outcome and message, how many; heads first
 */
export function commonPractice(seed: number, trials: number): string[][] {
  const counts = new Map<string, number>();
  for (let number = 1, done = 0; done < trials; number += 1) {
    const drawn = drawTrial(seed, 4 * number);
    if (drawn.used || drawn.gaugeAtPump || drawn.circuit.leakPaPerS > 0) continue;
    done += 1;
    const holdS = HOLD_S * (1 + 0.03 * ((number % 7) / 7));
    const riseS = number % 2 === 0 ? 300 : 600;
    const plan = {
      ...drawn,
      protocol: { ...protocols.strict, holdS: HOLD_S, riseS },
      recorded: true,
      holdS,
      riseS,
      isolated: true,
      unmodelled: undefined,
    };
    const material = trialMaterial(plan, runTrial(plan));
    const job = { ...material.job, hold_target_s: HOLD_S };
    const facts = vacuumFacts(material);
    for (const id of ['target-not-reached', 'hold-short', 'rise-over-limit']) {
      const check = checkNamed(id);
      if (check === undefined) continue;
      const { outcome, message } = check.judge(facts, resolveLimits(check, asRecorded, job));
      const key = [id, outcome, message].join('|');
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
  }
  const rows = [...counts]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([key, count]) => [...key.split('|'), String(count)]);
  return [['check', 'outcome', 'message', 'trials'], ...rows];
}
