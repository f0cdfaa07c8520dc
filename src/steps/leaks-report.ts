import { DryholdError } from '../errors.ts';
import type { ApplianceReport, LeaksReport } from '../pages/leaks-data.ts';
import { ruleNotice } from '../pages/rule-notice.ts';
import type { Store } from '../store/store.ts';
import { apartGroups } from './apart-groups.ts';
import { askedDay } from './asked-day.ts';
import { type LeaksAsked, LeaksCollector } from './leaks-collector.ts';
import { namedRule } from './named-rule.ts';
import { obligationsOf } from './obligations-of.ts';
import { eachAppliance, type OpenAppliance } from './open-appliances.ts';
import { readWorths } from './worth.ts';

export interface LeaksOptions extends LeaksAsked {
  /** Day on which rules are asked, ISO 8601; absent: the last on record. */
  readonly on?: string | undefined;
  readonly onProgress?: ((done: number, of: number, note: string) => void) | undefined;
}

/** Which systems leak, how much, past which trigger, and which are worth repairing. */
export async function leaksReport(store: Store, options: LeaksOptions): Promise<LeaksReport> {
  const { jurisdiction, onProgress } = options;
  const day = await askedDay(store, options.on);
  const leaks = new LeaksCollector(day, options, await readWorths(store, options.vintage));
  const { today } = day;
  return leaks.report(await eachAppliance(store, { today, jurisdiction, onProgress }, (open) => leaks.add(open)));
}

/**
 * One appliance with everything that its rates and duties rest on.
 *
 * @throws DryholdError `unknown-appliance`
 */
export async function applianceReport(store: Store, systemId: string, options: LeaksOptions): Promise<ApplianceReport> {
  const { vintage, method, jurisdiction } = options;
  const { on, today, lastDay } = await askedDay(store, options.on);
  const worths = await readWorths(store, vintage);
  const found: OpenAppliance[] = [];
  const entries = await eachAppliance(store, { today, jurisdiction, only: systemId }, (open) => found.push(open));
  const [open] = found;
  if (open === undefined) throw new DryholdError('unknown-appliance', { appliance: systemId, store: store.folder });
  const { appliance, additions, events, years, ruled } = open.account;
  return {
    asOf: on,
    lastDay,
    vintage,
    method,
    appliance,
    charge: worths.of(appliance.refrigerant, appliance.fullChargeKg ?? 0),
    additions,
    ruled: ruled.map(({ rule, verdict, events: own }) => ({ rule: namedRule(rule), verdict, events: own })),
    events,
    years,
    obligations: obligationsOf(open, method, today),
    apart: apartGroups(entries),
    notice: ruleNotice,
  };
}
