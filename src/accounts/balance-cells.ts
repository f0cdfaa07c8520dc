import { type Balance, book, emptyBalance, type Flow } from './balance.ts';
import type { BalanceCell, Period } from './booked-ledger.ts';

/** Who is told apart in cells; whoever is not stands under none. */
export interface CellNames {
  readonly crewIds: ReadonlySet<string>;
  readonly technicianIds: ReadonlySet<string>;
}

/** Balances by month, refrigerant, crew and technician together. */
export class BalanceCells {
  readonly #balances = new Map<string, BalanceCell & { readonly balance: Balance }>();
  readonly #told: CellNames | undefined;

  /** @param told absent: everybody */
  constructor(told?: CellNames) {
    this.#told = told;
  }

  /**
   * Books a flow of the period.
   *
   * @param of `crewId` is the crew that alone used the cylinder; null where several did, or none
   */
  book(flow: Flow, of: { month: string; refrigerant: string; crewId: string | null }, period: Period): void {
    const { month, refrigerant } = of;
    const crewId = toldOf(flow.crewId ?? of.crewId, this.#told?.crewIds);
    const technicianId = toldOf(flow.technicianId, this.#told?.technicianIds);
    const key = JSON.stringify([month, refrigerant, crewId, technicianId]);
    let cell = this.#balances.get(key);
    if (cell === undefined) {
      cell = { month, refrigerant, crewId, technicianId, balance: emptyBalance() };
      this.#balances.set(key, cell);
    }
    book(cell.balance, flow, period);
  }

  /** By month, refrigerant, crew and technician. */
  inOrder(): BalanceCell[] {
    return [...this.#balances].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, cell]) => cell);
  }
}

function toldOf(id: string | null | undefined, told: ReadonlySet<string> | undefined): string {
  return id === null || id === undefined || told?.has(id) === false ? '' : id;
}
