import type { LeakRateMethod } from '../accounts/appliance-leaks.ts';
import type { RuleReason } from '../accounts/applicable-rule.ts';
import type { Obligation } from '../accounts/obligation.ts';
import type { Jurisdiction } from '../accounts/rules/rule-set.ts';
import { rules } from '../accounts/rules/rules.ts';
import { dateOf, dayOf } from '../numerics/calendar-day.ts';
import { dayText } from '../pages/day-text.ts';
import type { DueLine, DueReport } from '../pages/leaks-data.ts';
import { ruleNotice } from '../pages/rule-notice.ts';
import type { AskedDay } from './asked-day.ts';
import { namedRule } from './named-rule.ts';
import { obligationsOf } from './obligations-of.ts';
import type { OpenAppliance } from './open-appliances.ts';

/** What of duties is told. */
export interface DueAsked {
  readonly method: LeakRateMethod;
  /** Of what is due, only within so many days. */
  readonly withinDays: number;
  readonly calibrationMonths: number;
  readonly jurisdiction?: Jurisdiction | undefined;
}

const order: Readonly<Record<string, number>> = { overdue: 0, due: 1, unknown: 2 };

/** What rules ask for of appliances that is due, overdue, or cannot be told; it is given one after the other. */
export class DueCollector {
  readonly #day: AskedDay;
  readonly #asked: DueAsked;
  readonly #open: DueLine[] = [];
  readonly #doneLate: DueLine[] = [];
  readonly #untold = new Map<RuleReason['id'], string[]>();
  readonly #asking = new Set<string>();
  #later = 0;
  #done = 0;

  constructor(day: AskedDay, asked: DueAsked) {
    this.#day = day;
    this.#asked = asked;
  }

  add(appliance: OpenAppliance): void {
    const { today, lastDay } = this.#day;
    const { method, withinDays } = this.#asked;
    const { siteId, refrigerant } = appliance.account.appliance;
    this.#addUntold(appliance);
    for (const one of obligationsOf(appliance, method, today)) {
      const line: DueLine = {
        ...asFarAsKnown(one, lastDay),
        siteId,
        refrigerant,
        dueOn: one.dueDay === null ? null : dateOf(one.dueDay),
      };
      this.#asking.add(one.ruleId);
      if (line.state === 'done') this.#done += 1;
      else if (line.state === 'done-late') this.#doneLate.push(line);
      else if (line.state === 'due' && (one.dueDay ?? 0) > today + withinDays) this.#later += 1;
      else this.#open.push(line);
    }
  }

  report(calibrations: DueReport['calibrations']): DueReport {
    const { on, lastDay } = this.#day;
    const { method, withinDays, calibrationMonths, jurisdiction } = this.#asked;
    return {
      asOf: on,
      lastDay,
      withinDays,
      method,
      jurisdiction: jurisdiction ?? null,
      rules: rules.filter(({ id }) => this.#asking.has(id)).map(namedRule),
      open: this.#open.sort(inOrder),
      later: this.#later,
      done: this.#done,
      doneLate: this.#doneLate.sort(inOrder),
      calibrationMonths,
      calibrations,
      untold: [...this.#untold].map(([reason, all]) => ({ reason, appliances: all, count: all.length })),
      notice: ruleNotice,
    };
  }

  #addUntold({ account: { appliance, ruled } }: OpenAppliance): void {
    const unknown = ruled.find(({ verdict }) => verdict.state === 'unknown');
    if (unknown === undefined || ruled.some(({ verdict }) => verdict.state === 'applies')) return;
    const { id } = unknown.verdict.reason;
    const untold = this.#untold.get(id);
    if (untold === undefined) this.#untold.set(id, [appliance.systemId]);
    else untold.push(appliance.systemId);
  }
}

/** What is worst first, of that the earliest. */
function inOrder(a: DueLine, b: DueLine): number {
  return order[a.state] - order[b.state] || dueDay(a) - dueDay(b) || (a.systemId < b.systemId ? -1 : 1);
}

function dueDay({ dueDay: day }: DueLine): number {
  return day ?? Number.POSITIVE_INFINITY;
}

/** What fell due after the record ends may have been done since. */
function asFarAsKnown(one: Obligation, lastDay: string): Obligation {
  const isAfter = one.state === 'overdue' && one.dueDay !== null && one.dueDay > dayOf(lastDay);
  return isAfter ? { ...one, state: 'unknown', lacks: `anything after ${dayText(lastDay)}` } : one;
}
