import { DryholdError } from '../errors.ts';
import { type TestedVolume, testedVolume } from '../facts/tested-volume.ts';
import { parseQuantity } from '../units/parse-quantity.ts';
import { planOption } from './plan-option.ts';

/** The options that say how much is tested: a volume, or what it is estimated from. */
export interface PlanVolumeOptions {
  readonly volume?: string;
  readonly line?: string;
  readonly liquidLine?: string;
  readonly suctionLine?: string;
  readonly cooling?: string;
  readonly withOutdoorUnit?: boolean;
}

/**
 * The volume that is tested: as it was given, or estimated as that of a job whose record holds line, diameters and rated
 * cooling: lines and indoor coil, on wish with the outdoor unit.
 *
 * @throws DryholdError `bad-usage` where neither or both are given, or one of the four is missing
 */
export function planVolume(options: PlanVolumeOptions): TestedVolume {
  const { volume } = options;
  const parts = { line: options.line, 'liquid-line': options.liquidLine, 'suction-line': options.suctionLine };
  const all = Object.entries({ ...parts, cooling: options.cooling });
  const given = all.filter(([, text]) => text !== undefined);
  if (volume !== undefined) {
    const [also] = [...given, ...(options.withOutdoorUnit === true ? [['with-outdoor-unit']] : [])];
    if (also !== undefined) throw usage(`either --volume, or what it is estimated from (--${also[0]}): not both`);
    return known({ tested_volume_l: planOption('--volume', () => 1000 * volumeOf(volume)) });
  }
  if (given.length === 0)
    throw usage('how much is tested? --volume, or --line, --liquid-line, --suction-line and --cooling to estimate it');
  const missing = all.filter(([, text]) => text === undefined).map(([name]) => `--${name}`);
  if (missing.length > 0) throw usage(`to estimate the volume, ${missing.join(' and ')} must be given too`);
  const { line = '', liquidLine = '', suctionLine = '', cooling = '' } = options;
  return known({
    line_length_m: planOption('--line', () => lengthOf(line, 'length', 0.1, 500)),
    liquid_line_od_mm: planOption('--liquid-line', () => 1000 * lengthOf(liquidLine, 'diameter', 0.003, 0.1)),
    suction_line_od_mm: planOption('--suction-line', () => 1000 * lengthOf(suctionLine, 'diameter', 0.003, 0.15)),
    rated_cooling_w: planOption('--cooling', () => powerOf(cooling)),
    charge_basis: options.withOutdoorUnit === true ? 'empty' : 'pre-charged',
  });
}

function known(job: NonNullable<Parameters<typeof testedVolume>[0]['job']>): TestedVolume {
  const volume = testedVolume({ job });
  if (volume === undefined) throw new Error('a volume, or a line, diameters and cooling, make a tested volume');
  return volume;
}

function volumeOf(text: string): number {
  const range = { name: 'volume', lowest: 1e-5, highest: 100 };
  return parseQuantity(text, ['volume'], { range }).volumeM3;
}

function lengthOf(text: string, name: string, lowest: number, highest: number): number {
  return parseQuantity(text, ['length'], { range: { name, lowest, highest } }).lengthM;
}

function powerOf(text: string): number {
  const range = { name: 'cooling', lowest: 100, highest: 5e6 };
  return parseQuantity(text, ['power'], { range }).powerW;
}

function usage(problem: string): DryholdError {
  return new DryholdError('bad-usage', { problem });
}
