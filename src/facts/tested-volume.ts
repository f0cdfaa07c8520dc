import { copperTube } from '../physics/copper-tube.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import type { MeasuredRecords } from './job-material.ts';

/** The volume that the vacuum saw [L], its 95 % ends, and what it rests on. */
export interface TestedVolume {
  readonly volumeL: number;
  readonly lowL: number;
  readonly highL: number;
  readonly basis: 'tested' | 'circuit' | 'estimated';
}

type Line = Pick<Job, 'line_length_m' | 'liquid_line_od_mm' | 'suction_line_od_mm'>;

// What follows is common practice, no source; every spread is half the width of a 95 % interval, as a ratio.
/** Of a recorded volume: someone added it up from drawings. */
const recordedSpread = 0.1;
/** Of lines: lengths are rounded, bends and fittings left out. */
const lineSpread = 0.1;
/** Of coils, accumulators and what else is estimated from the rated cooling. */
const coilSpread = 0.4;
/** An indoor coil by rated cooling [L/kW]. */
const indoorLPerKw = 0.25;
/** An outdoor unit: coil by rated cooling [L/kW], compressor, accumulator and pipes [L]. */
const outdoorLPerKw = 0.6;
const outdoorL = 0.8;
/** Lines and indoor coil as a ratio of the whole circuit: usual, least and most. */
const indoorShares = [0.45, 0.2, 0.8] as const;
/** Wall of a tube whose size is not in the table [mm]. */
const otherWallMm = 0.9;

/**
 * The volume that the vacuum saw: what turns a rise into a leak, and a pumping speed into a time.
 *
 * As recorded, else the recorded circuit, else lines × bores and coils by rated cooling. On a pre-charged install the
 * outdoor unit stays shut: then the circuit is not what was tested, and the estimate of lines and indoor coil goes
 * before a share of it. A new unit comes pre-charged unless the record says otherwise. Where neither the work nor the
 * basis of the charge is recorded the interval spans both.
 *
 * @returns undefined where the record gives too little to estimate from
 */
export function testedVolume({ job, lineSets }: MeasuredRecords): TestedVolume | undefined {
  if (job === undefined) return undefined;
  const { tested_volume_l: testedL = 0, circuit_volume_l: circuitL = 0, rated_cooling_w: ratedW = 0 } = job;
  if (testedL > 0) return spread(testedL, recordedSpread * testedL, 'tested');
  const outdoor = outdoorPart(job);
  if (circuitL > 0 && outdoor === 'evacuated') return spread(circuitL, recordedSpread * circuitL, 'circuit');
  const linesL = lineVolume(job, lineSets ?? []);
  if (linesL !== undefined && ratedW > 0) {
    const shut = estimate(linesL, ratedW, 0);
    const evacuated = estimate(linesL, ratedW, 1);
    return outdoor === 'shut' ? shut : outdoor === 'evacuated' ? evacuated : either(shut, evacuated);
  }
  if (!(circuitL > 0)) return undefined;
  const [usual, least, most] = indoorShares.map((share) => share * circuitL);
  const shut: TestedVolume = { volumeL: usual, lowL: least, highL: most, basis: 'estimated' };
  return outdoor === 'shut' ? shut : either(shut, spread(circuitL, recordedSpread * circuitL, 'circuit'));
}

/** The volume that the tests of a job saw, as facts. */
export function testedVolumeFacts(records: MeasuredRecords): Partial<Facts> {
  const volume = testedVolume(records);
  if (volume === undefined) return {};
  return {
    tested_volume_l: volume.volumeL,
    tested_volume_low_l: volume.lowL,
    tested_volume_high_l: volume.highL,
    tested_volume_basis: volume.basis,
  };
}

/** Whether the outdoor unit was evacuated with the rest, or stayed shut on its charge. */
export function outdoorPart({ charge_basis: basis, work_type: work }: Pick<Job, 'charge_basis' | 'work_type'>) {
  if (basis !== undefined) return basis === 'pre-charged' ? 'shut' : 'evacuated';
  if (work === undefined) return 'unknown';
  return work === 'install' || work === 'replace' ? 'shut' : 'evacuated';
}

function estimate(linesL: number, ratedW: number, outdoorUnits: 0 | 1): TestedVolume {
  const kw = ratedW / 1000;
  const indoorL = indoorLPerKw * kw;
  const outsideL = outdoorUnits * (outdoorLPerKw * kw + outdoorL);
  const halfWidthL = Math.hypot(lineSpread * linesL, coilSpread * indoorL, coilSpread * outsideL);
  return spread(linesL + indoorL + outsideL, halfWidthL, 'estimated');
}

function spread(volumeL: number, halfWidthL: number, basis: TestedVolume['basis']): TestedVolume {
  return { volumeL, lowL: volumeL - halfWidthL, highL: volumeL + halfWidthL, basis };
}

/** One or the other, and nothing tells which. */
function either(small: TestedVolume, large: TestedVolume): TestedVolume {
  const volumeL = Math.sqrt(small.volumeL * large.volumeL);
  return { volumeL, lowL: small.lowL, highL: large.highL, basis: 'estimated' };
}

/** Both lines of every line set together [L]; undefined where a length or a diameter is missing. */
function lineVolume(job: Line, lineSets: readonly Line[]): number | undefined {
  let sumL = 0;
  for (const line of lineSets.length > 0 ? lineSets : [job]) {
    const lengthM = line.line_length_m;
    const liquidMm = line.liquid_line_od_mm ?? job.liquid_line_od_mm;
    const suctionMm = line.suction_line_od_mm ?? job.suction_line_od_mm;
    if (lengthM === undefined || liquidMm === undefined || suctionMm === undefined) return undefined;
    sumL += lengthM * (litresPerM(liquidMm) + litresPerM(suctionMm));
  }
  return sumL;
}

function litresPerM(outerMm: number): number {
  const tube = copperTube(outerMm / 1000);
  return tube === undefined
    ? (Math.PI / 4000) * Math.max(0, outerMm - 2 * otherWallMm) ** 2
    : 1000 * tube.innerVolumeM3PerM;
}
