import type { RuleReason } from '../accounts/applicable-rule.ts';
import type { Obligation, ObligationKind } from '../accounts/obligation.ts';
import { bookedMassText, type UnitSystem } from '../units/display.ts';
import { dateOf } from '../numerics/calendar-day.ts';
import { dayText } from './day-text.ts';
import { percentText } from './share-text.ts';

/** Sectors in words. */
export const sectorText = {
  comfort: 'comfort cooling',
  'light-commercial-comfort': 'light commercial comfort cooling',
  'residential-comfort': 'residential comfort cooling',
  'commercial-refrigeration': 'commercial refrigeration',
  'industrial-process': 'industrial process refrigeration',
  transport: 'refrigerated transport',
} as const;

/** Reasons in words that need no figure, for counts. */
export const reasonText: Readonly<Record<RuleReason['id'], string>> = {
  applies: 'it applies',
  'other-jurisdiction': 'other rules apply where it stands',
  'no-jurisdiction': 'whose rules apply is not on record',
  'no-refrigerant': 'the refrigerant is not known',
  'no-gwp': 'the refrigerant’s global warming potential is not known',
  'no-sector': 'the sector is not on record',
  'no-full-charge': 'the full charge is not on record',
  'no-hermetic': 'whether it is hermetically sealed is not on record',
  retired: 'it is retired',
  'not-yet': 'the rule does not hold yet',
  'no-more': 'the rule no longer holds',
  'not-ozone-depleting': 'its refrigerant does not deplete ozone',
  'ozone-depleting': 'its refrigerant depletes ozone, which other rules are for',
  'no-hydrofluorocarbon': 'it holds no hydrofluorocarbon',
  'not-fluorinated': 'its refrigerant is not fluorinated',
  'low-gwp': 'its global warming potential is too low',
  'excluded-sector': 'its sector is excluded',
  'below-charge': 'its full charge is below the least',
  'below-co2e': 'its charge is below the least',
  'below-mass': 'its charge is below the least',
  hermetic: 'it is hermetically sealed and small',
};

/** Why a rule applies to an appliance or not, with the figures. */
export function reasonDetail(reason: RuleReason, units: UnitSystem): string {
  switch (reason.id) {
    case 'applies':
      return `full charge ${bookedMassText(reason.fullChargeKg, units)}`;
    case 'not-yet':
      return `it holds from ${dayText(reason.date)} on`;
    case 'no-more':
      return `it held until ${dayText(reason.date)}`;
    case 'low-gwp':
      return `global warming potential ${reason.gwp}, not over ${reason.over}`;
    case 'excluded-sector':
      return `${sectorText[reason.sector]} is excluded`;
    case 'below-charge':
      return `full charge ${bookedMassText(reason.fullChargeKg, units)}, below ${reason.leastLb} lb`;
    case 'below-co2e':
      return `${reason.co2eT.toFixed(2)} t CO₂e (IPCC AR4), below ${reason.leastT} t`;
    case 'below-mass':
      return `full charge ${bookedMassText(reason.fullChargeKg, units)}, below ${reason.leastKg} kg`;
    default:
      return reasonText[reason.id];
  }
}

/** What a rule asks for, in words. */
export const obligationText: Readonly<Record<ObligationKind, string>> = {
  repair: 'repair the leak',
  'initial-verification': 'verify the repair',
  'follow-up-verification': 'verify it again in operation',
  'retrofit-or-retirement-plan': 'plan for retrofit or retirement, to be done within a year',
  inspection: 'inspect for leaks',
  'chronic-leak-report': 'report as chronically leaking',
  'leak-detection': 'have automatic leak detection',
  'leak-check': 'check for leaks',
  recheck: 'check the repair for leaks',
};

const since: Readonly<Record<ObligationKind, string>> = {
  repair: 'over the trigger on',
  'initial-verification': 'over the trigger on',
  'follow-up-verification': 'first verified on',
  'retrofit-or-retirement-plan': 'over the trigger on',
  inspection: 'over the trigger on',
  'chronic-leak-report': 'for the year to',
  'leak-detection': 'installed on',
  'leak-check': 'checked or installed on',
  recheck: 'repaired on',
};

/** What an obligation follows from, with its day. */
export function sinceText({ kind, sinceDay }: Obligation): string {
  return sinceDay === null ? '' : `${since[kind]} ${dayText(dateOf(sinceDay))}`;
}

/** A leak rate, to a tenth of a percent below a hundred. */
export function leakRateText(rate: number | null): string {
  return rate === null || rate >= 0.9995 ? percentText(rate) : `${(100 * rate).toFixed(1)}%`;
}
