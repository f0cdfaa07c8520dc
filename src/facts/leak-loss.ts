import { bracketedRoot } from '../numerics/bracketed-root.ts';
import { type LeakAtOperatingPressure, leakAtOperatingPressure } from '../physics/leak-at-operating-pressure.ts';
import { leakFromRise } from '../physics/leak-from-rise.ts';
import { refrigerantNamed } from '../physics/refrigerants/refrigerant-named.ts';
import { fastSaturationOf } from '../physics/tables/fast-saturation-of.ts';
import { saturationTables } from '../physics/tables/saturation-tables.ts';
import type { Facts } from '../records/tables/facts.ts';
import type { Job } from '../records/tables/jobs.ts';
import { siteAtmosphere } from './site-atmosphere.ts';
import type { TestedVolume } from './tested-volume.ts';

/** Temperature of a system that stands [K]: 70 °F, common practice, no source. */
const standingK = 294.26;

/**
 * Viscosity of saturated vapour at some 20 °C [Pa·s], from memory, within some 15 %; only the high end of the band rests
 * on it.
 */
const viscositiesPaS: Readonly<Record<string, number>> = { 'R-410A': 13.5e-6, 'R-290': 8.2e-6 };
const usualViscosityPaS = 12.5e-6;

interface Vapour {
  /** Pressure at which it condenses at a temperature [Pa]; NaN outside its table. */
  readonly dewPa: (temperatureK: number) => number;
  readonly molarMassKgPerMol: number;
  readonly viscosityPaS: number;
}

/** Of the refrigerants that were asked for. */
const vapours = new Map<string, Vapour>();

/**
 * What a leak seen as a rise would lose in operation: an order of magnitude, as a band that takes in the spread of the
 * volume.
 *
 * Operation is standing at one temperature, its pressure the dew pressure there: a high side in summer has twice as much
 * and loses twice to four times as much.
 *
 * @param leakPaPerS steady rise [Pa/s]; below 0 counts as 0
 * @param volume the volume it was seen in; undefined gives undefined
 * @param refrigerant ASHRAE 34 designation; unknown or absent gives undefined
 * @param atmospherePa of the site [Pa]
 *
 * Source: as `leakAtOperatingPressure`. Accuracy: an order of magnitude.
 */
export function leakLoss(
  leakPaPerS: number,
  volume: TestedVolume | undefined,
  refrigerant: string | undefined,
  atmospherePa: number = siteAtmosphere(undefined),
): LeakAtOperatingPressure | undefined {
  if (volume === undefined || refrigerant === undefined || !Number.isFinite(leakPaPerS)) return undefined;
  const vapour = vapourOf(refrigerant);
  const operatingPa = vapour?.dewPa(standingK) ?? Number.NaN;
  if (vapour === undefined || Number.isNaN(operatingPa)) return undefined;
  const once = leakAtOperatingPressure({
    leakPaM3PerS: leakFromRise(volume.volumeL / 1000, Math.max(0, leakPaPerS)),
    operatingPa,
    atmospherePa,
    temperatureK: standingK,
    molarMassKgPerMol: vapour.molarMassKgPerMol,
    viscosityPaS: vapour.viscosityPaS,
  });
  return {
    lowKgPerYear: once.lowKgPerYear * (volume.lowL / volume.volumeL),
    highKgPerYear: once.highKgPerYear * (volume.highL / volume.volumeL),
  };
}

function vapourOf(refrigerant: string): Vapour | undefined {
  const known = vapours.get(refrigerant);
  if (known !== undefined) return known;
  const table = saturationTables.find(({ designation }) => designation === refrigerant);
  if (table === undefined) return undefined;
  const curve = fastSaturationOf(refrigerant);
  const { lowPa, highPa } = table.dew ?? table.bubble;
  const vapour: Vapour = {
    dewPa: (temperatureK) => bracketedRoot((pressurePa) => curve.dewK(pressurePa) - temperatureK, lowPa, highPa, 1e-9),
    molarMassKgPerMol: refrigerantNamed(refrigerant).molarMassKgPerMol,
    viscosityPaS: viscositiesPaS[refrigerant] ?? usualViscosityPaS,
  };
  vapours.set(refrigerant, vapour);
  return vapour;
}

/** What the leak of a job, from least to most, and the smallest that its test could have told, would lose as it stands. */
export function lossFacts(facts: Partial<Facts>, job: Job | undefined): Partial<Facts> {
  const {
    tested_volume_l: volumeL,
    tested_volume_low_l: lowL,
    tested_volume_high_l: highL,
    tested_volume_basis,
  } = facts;
  const { leak_low_pa_per_s: low, leak_high_pa_per_s: high, smallest_leak_seen_pa_per_s: smallest } = facts;
  if (low === undefined || high === undefined || smallest === undefined) return {};
  if (volumeL === undefined || lowL === undefined || highL === undefined || tested_volume_basis === undefined)
    return {};
  const volume = { volumeL, lowL, highL, basis: tested_volume_basis };
  const atmospherePa = siteAtmosphere(job);
  const lossOf = (paPerS: number) => leakLoss(paPerS, volume, job?.refrigerant, atmospherePa);
  const [least, most, told] = [lossOf(low), lossOf(high), lossOf(smallest)];
  if (least === undefined || most === undefined || told === undefined) return {};
  return {
    leak_loss_low_kg_per_year: least.lowKgPerYear,
    leak_loss_high_kg_per_year: most.highKgPerYear,
    smallest_loss_low_kg_per_year: told.lowKgPerYear,
    smallest_loss_high_kg_per_year: told.highKgPerYear,
  };
}
