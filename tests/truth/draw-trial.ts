import { Random } from '../../src/numerics/random.ts';
import { type Protocol, protocols } from '../../src/simulate/protocols.ts';
import { drawCircuit } from './draw-circuit.ts';
import { drawGauge } from './draw-gauge.ts';
import { drawUnmodelled } from '../../src/simulate/mishaps/unmodelled-rise.ts';
import type { TrialKind, TrialPlan } from './trial-plan.ts';

const kinds: readonly TrialKind[] = ['dry', 'leaking', 'wet', 'mixed'];

/** Draws the evacuation of that number; the same for the same seed and number. The kinds take turns. */
export function drawTrial(seed: number, number: number): TrialPlan {
  const random = new Random(seed, 4 * number);
  const kind = kinds[number % kinds.length];
  const used = random.chance(0.25);
  const circuit = drawCircuit(random, kind, used);
  const gauge = drawGauge(random);
  const gaugeAtPump = random.chance(0.1);
  const coresIn = random.chance(0.3);
  const isolatedAtPump = coresIn || gaugeAtPump;
  const hoseLeaks = circuit.leakPaPerS >= 0.01 && random.chance(0.1);
  const protocol: Protocol = protocols[random.weighted({ rise: 0.4, deep: 0.35, strict: 0.25 })];
  const riseS = protocol.riseS * random.uniform(1, 1.15);
  const bores = [0.0095, 0.0064];
  const odd = random.chance(0.15);
  const startPa = protocol.targetPa * random.uniform(0.4, 0.9);
  return {
    seed,
    number,
    kind,
    used,
    unmodelled: odd ? drawUnmodelled(random, circuit, riseS, startPa) : undefined,
    circuit,
    train: {
      speedM3PerS: random.choice([1.9, 2.4, 2.83, 3.8]) / 1000,
      basePa: random.chance(0.15) ? random.uniform(15, 32) : random.uniform(2, 5),
      hoseBoreM: random.choice(bores),
      hoseLengthM: random.uniform(1.5, 1.8),
      coresIn,
      hoseLeakPaM3PerS: hoseLeaks ? random.uniform(1e-4, 2.4e-4) : 0,
      isolatedAtPump,
    },
    gauge,
    gaugeAtPump,
    driftPerS: random.uniform(-0.003, 0.003) / riseS,
    walkRatio: random.uniform(0, 0.002) / Math.sqrt(riseS),
    protocol,
    recorded: random.chance(0.9),
    holdS: random.uniform(300, 900),
    riseS,
    isolated: !random.chance(0.05),
    nitrogenBreaks: random.chance(0.2) ? 2 : 0,
    ends: random.chance(0.3) ? 'log-end' : random.chance(0.3) ? 'break' : 'weigh-in',
    marked: random.chance(0.5),
    clamp: random.chance(0.7),
    lineDriftKPerS: random.normal(0, 0.0006),
    volumeRecorded: random.chance(0.6),
  };
}
