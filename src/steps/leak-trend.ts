import type { ApplianceLeaks } from '../accounts/appliance-account.ts';
import type { TrendAddition } from './account-trend.ts';

/** What was added for leaks from a day on; it is given appliance after appliance. */
export class LeakTrend {
  readonly #fromDay: number;
  readonly #additions: TrendAddition[] = [];
  #chargeKg = 0;

  /** @param fromDay since 1970 */
  constructor(fromDay: number) {
    this.#fromDay = fromDay;
  }

  /** @param leaks of an appliance up to the last day that counts; what has no full charge is left out */
  add({ appliance, leaks }: Pick<ApplianceLeaks, 'appliance' | 'leaks'>): void {
    if (appliance.fullChargeKg === null) return;
    this.#chargeKg += appliance.fullChargeKg;
    for (const { parts } of leaks) this.#additions.push(...parts.filter(({ day }) => day >= this.#fromDay));
  }

  get additions(): readonly TrendAddition[] {
    return this.#additions;
  }

  /** Full charge of all of them [kg]. */
  get chargeKg(): number {
    return this.#chargeKg;
  }
}
