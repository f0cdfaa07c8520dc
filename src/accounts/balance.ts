import type { CylinderAccount } from './cylinder-account.ts';

/** What happens to refrigerant that is accounted for. */
export type FlowKind = 'bought' | 'charged' | 'recovered' | 'returned' | 'unexplained' | 'untold';

/** A mass that moves, or is missing, on a day. */
export interface Flow {
  readonly kind: FlowKind;
  readonly day: number;
  /** [kg]; unexplained is above 0 where it is missing. */
  readonly kg: number;
  /** Of an unexplained one [kg²]; else 0. */
  readonly variance: number;
  readonly cost: number;
  readonly technicianId: string | null;
  readonly crewId: string | null;
  readonly siteId: string | null;
}

/**
 * A mass balance [kg]: `opening + bought + recovered = charged + returned + unexplained + untold + on hand`, to the last digit that a
 * computer keeps.
 */
export interface Balance {
  openingKg: number;
  boughtKg: number;
  /** What left cylinders for systems, what stays in hoses included. */
  chargedKg: number;
  recoveredKg: number;
  returnedKg: number;
  unexplainedKg: number;
  /** Of that [kg²]. */
  variance: number;
  /** What was in cylinders that were closed without being weighed. */
  untoldKg: number;
  onHandKg: number;
  /** Of what was bought, in the currency of the shop, and how much of that has one on record [kg]. */
  cost: number;
  costedKg: number;
}

/** A balance of nothing. */
export function emptyBalance(): Balance {
  return {
    openingKg: 0,
    boughtKg: 0,
    chargedKg: 0,
    recoveredKg: 0,
    returnedKg: 0,
    unexplainedKg: 0,
    variance: 0,
    untoldKg: 0,
    onHandKg: 0,
    cost: 0,
    costedKg: 0,
  };
}

/** Adds another balance to one. */
export function addBalance(to: Balance, other: Balance): void {
  for (const key of Object.keys(to) as (keyof Balance)[]) to[key] += other[key];
}

const into: Readonly<Record<FlowKind, 1 | -1>> = {
  bought: 1,
  recovered: 1,
  charged: -1,
  returned: -1,
  unexplained: -1,
  untold: -1,
};

/** Books a flow; what came before the period is part of the opening, what comes after it is not looked at. */
export function book(balance: Balance, flow: Flow, period: { readonly fromDay: number; readonly toDay: number }): void {
  const { kind, day, kg } = flow;
  if (day > period.toDay) return;
  balance.onHandKg += into[kind] * kg;
  if (day < period.fromDay) {
    balance.openingKg += into[kind] * kg;
    return;
  }
  balance[`${kind}Kg`] += kg;
  balance.variance += flow.variance;
  balance.cost += flow.cost;
  if (flow.cost > 0) balance.costedKg += kg;
}

// Common practice, no source: a scale is off alike for all that it weighs, and so are the cylinders that a filler fills at a time.
export const commonScaleRatio = 0.003;
export const commonFillRatio = 0.0015;

/**
 * Half the width of the 95 % interval of what is unexplained [kg]: steps and placing of every weighing, the scale's own ratio on all
 * that it weighed, and the filler's on all that was bought.
 */
export function unexplainedHalfWidthKg({ variance, chargedKg, recoveredKg, boughtKg }: Balance): number {
  return (
    1.96 * Math.hypot(Math.sqrt(variance), commonScaleRatio * (chargedKg + recoveredKg), commonFillRatio * boughtKg)
  );
}

/**
 * All that moved in and out of a cylinder, in no order.
 *
 * What is missing between two weighings is laid to a person, a crew or a site only where both weighings are theirs.
 */
export function flowsOf({ walk }: CylinderAccount): Flow[] {
  const { cylinder, weighings, gaps, lastKg } = walk;
  const { acquiredDay, closedDay, closingKg, netKg, cost } = cylinder;
  const nobody = { technicianId: null, crewId: null, siteId: null };
  const flows: Flow[] = [];
  if (acquiredDay !== null)
    flows.push({ kind: 'bought', day: acquiredDay, kg: netKg ?? 0, variance: 0, cost: cost ?? 0, ...nobody });
  for (const { weighing, outKg } of weighings) {
    const { day, direction, technicianId, crewId, siteId } = weighing;
    const [kind, kg] = direction === 'in' ? (['charged', outKg] as const) : (['recovered', -outKg] as const);
    flows.push({ kind, day, kg, variance: 0, cost: 0, technicianId, crewId, siteId });
  }
  for (const { kg, sdKg, day, before, after } of gaps) {
    const both = <Key extends 'technicianId' | 'crewId' | 'siteId'>(key: Key) =>
      before !== null && after !== null && before[key] === after[key] ? before[key] : null;
    flows.push({
      kind: 'unexplained',
      day,
      kg,
      variance: sdKg ** 2,
      cost: 0,
      technicianId: both('technicianId'),
      crewId: both('crewId'),
      siteId: both('siteId'),
    });
  }
  if (closedDay !== null) {
    const kind = closingKg === null ? 'untold' : 'returned';
    flows.push({ kind, day: closedDay, kg: closingKg ?? lastKg, variance: 0, cost: 0, ...nobody });
  }
  return flows;
}
