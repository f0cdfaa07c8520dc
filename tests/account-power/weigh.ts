import type { Random } from '../../src/numerics/random.ts';
import type { DrawnCylinder } from './drawn-cylinder.ts';
import type { DrawnJob } from './drawn-job.ts';

const minuteMs = 60_000;
const goMinutes = 25;

/** Moves refrigerant out of a cylinder, or into it, and writes what the scale shows before and after. */
export function weigh(
  random: Random,
  cylinder: DrawnCylinder,
  outKg: number,
  direction: 'in' | 'out',
  job: DrawnJob,
  how: { readonly idsRise: boolean; readonly hasTimes: boolean },
): void {
  const { crew, day, temperatureC } = job;
  const { scale } = crew;
  const { marks } = cylinder;
  const habit = random.chance(0.92) ? crew.habit : random.weighted({ whole: 0.6, zero: 0.25, content: 0.15 });
  if (habit !== 'whole') marks.add(habit);
  const isCapped = random.chance(0.05);
  const hoseKg = random.chance(0.02) ? random.uniform(0.05, 0.15) : 0;
  if (isCapped) marks.add('cap');
  if (hoseKg > 0) marks.add('hose');
  const besidesKg = cylinder.emptyKg + (isCapped ? cylinder.capKg : 0) + hoseKg;
  const pulledKg = (): number => {
    const isPulled = random.chance(0.04);
    if (isPulled) marks.add('pull');
    return isPulled ? random.uniform(-0.1, 0.1) : 0;
  };
  const onH = random.uniform(0.05, 1);
  const shownKg = (laterH: number): number =>
    scale.shownKg(besidesKg + cylinder.contentKg + pulledKg(), { day, temperatureC, onH: onH + laterH });
  const beforeKg = shownKg(0);
  cylinder.contentKg -= outKg;
  const afterKg = shownKg(random.uniform(0.1, 0.5));
  const takenOffKg = habit === 'whole' ? 0 : habit === 'content' ? scale.rounded(cylinder.stampedKg) : beforeKg;
  const [startKg, endKg] = [scale.rounded(beforeKg - takenOffKg), scale.rounded(afterKg - takenOffKg)];
  const number = cylinder.weighings.length + 1;
  const order = how.idsRise ? String(job.weighings).padStart(2, '0') : random.integer(10, 99);
  cylinder.weighings.push({
    weighingId: `w-${job.jobId}-${order}-${cylinder.cylinderId}-${number}`,
    of: cylinder.cylinderId,
    writtenFor: cylinder.cylinderId,
    habit,
    refrigerant: cylinder.record.refrigerant ?? '',
    direction,
    day,
    atMs: job.atMs + (how.hasTimes ? job.weighings * goMinutes * minuteMs : 0),
    shown: { startKg, endKg },
    startKg,
    endKg,
    stepKg: scale.stepKg,
    jobId: job.jobId,
    siteId: job.siteId,
    technicianId: job.technicianId,
    crewId: `crew-${crew.number}`,
  });
  job.weighings += 1;
  job.scaledKg += outKg * (1 + scale.gainRatio);
  job.shownKg += startKg - endKg;
}
