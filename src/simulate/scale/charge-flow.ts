import type { Random } from '../../numerics/random.ts';

/** How refrigerant leaves the cylinder, from the moment its valve is first opened. */
export interface ChargeFlow {
  /** Until nothing moves any more [s]. */
  readonly durationS: number;
  /** When the cylinder is lifted off [s]; undefined where it is not changed. */
  readonly changeFromS: number | undefined;
  /** Mass that has left so far [kg]. */
  readonly goneKg: (sinceS: number) => number;
}

export interface DrawChargeFlowOptions {
  readonly random: Random;
  /** What leaves in all [kg]. */
  readonly massKg: number;
  /** What the first of two cylinders gives, and how long the change takes [s]. */
  readonly change?: { readonly afterKg: number; readonly durationS: number } | undefined;
}

/** A stretch with the valve open. */
interface Burst {
  readonly fromS: number;
  readonly toS: number;
  readonly massKg: number;
  readonly goneKg: (openS: number) => number;
}

/**
 * Draws a flow of one to three bursts, the last one small to hit the figure, with pauses of 5 to 40 s between.
 *
 * The flow starts at 4 to 60 g/s and slackens as the pressure in the system comes up. Now and then the technician
 * overshoots and lets some grams back.
 */
export function drawChargeFlow({ random, massKg, change }: DrawChargeFlowOptions): ChargeFlow {
  const fastest = random.logUniform(0.004, 0.06);
  // Nobody waits longer than a quarter of an hour.
  const endKgPerS = Math.max(fastest * random.uniform(0.1, 0.4), massKg / 900);
  const startKgPerS = Math.max(fastest, endKgPerS);
  const slackensS = random.uniform(8, 60);
  const overKg = random.chance(0.01) ? Math.min(0.2 * massKg, random.uniform(0.005, 0.04)) : 0;
  const throughKg = (openS: number) =>
    endKgPerS * openS + (startKgPerS - endKgPerS) * slackensS * (1 - Math.exp(-openS / slackensS));
  const openFor = (kg: number) => {
    let openS = kg / startKgPerS;
    for (let round = 0; round < 40; round++) {
      const rate = endKgPerS + (startKgPerS - endKgPerS) * Math.exp(-openS / slackensS);
      const stepS = (kg - throughKg(openS)) / rate;
      openS += stepS;
      if (Math.abs(stepS) < 1e-6) break;
    }
    return openS;
  };

  const bursts: Burst[] = [];
  let nowS = 0;
  let goneKg = 0;
  let changeFromS: number | undefined;
  const burst = (kg: number, throttle: number) => {
    const beforeS = openFor(goneKg);
    const beforeKg = throughKg(beforeS);
    const lastsS = (openFor(goneKg + kg) - beforeS) / throttle;
    const flown = (openS: number) => throughKg(beforeS + throttle * openS) - beforeKg;
    bursts.push({ fromS: nowS, toS: nowS + lastsS, massKg: kg, goneKg: flown });
    nowS += lastsS;
    goneKg += kg;
  };
  const shares = burstShares(random);
  for (const [index, share] of shares.entries()) {
    if (index > 0) nowS += random.uniform(5, 40);
    const kg = share * massKg + (index === shares.length - 1 ? overKg : 0);
    const throttle = index === 0 ? 1 : random.uniform(0.3, 1);
    const firstKg = change === undefined || changeFromS !== undefined ? Infinity : change.afterKg - goneKg;
    if (firstKg >= kg) {
      burst(kg, throttle);
      continue;
    }
    burst(firstKg, throttle);
    changeFromS = nowS + random.uniform(3, 12);
    nowS = changeFromS + (change?.durationS ?? 0);
    burst(kg - firstKg, throttle);
  }
  if (overKg > 0) {
    nowS += random.uniform(8, 25);
    const backS = overKg / random.uniform(0.001, 0.003);
    bursts.push({ fromS: nowS, toS: nowS + backS, massKg: -overKg, goneKg: (openS) => (-overKg * openS) / backS });
    nowS += backS;
  }
  return {
    durationS: nowS,
    changeFromS,
    goneKg(sinceS) {
      let kg = 0;
      for (const one of bursts) {
        if (sinceS <= one.fromS) break;
        kg += sinceS >= one.toS ? one.massKg : one.goneKg(sinceS - one.fromS);
      }
      return kg;
    },
  };
}

/** How the mass is shared among the bursts. */
function burstShares(random: Random): number[] {
  const count = random.weighted({ one: 0.35, two: 0.4, three: 0.25 });
  if (count === 'one') return [1];
  const last = random.uniform(0.02, 0.12);
  if (count === 'two') return [1 - last, last];
  const middle = random.uniform(0.08, 0.3);
  return [1 - middle - last, middle, last];
}
