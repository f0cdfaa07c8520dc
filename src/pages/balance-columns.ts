import { type GwpVintage, vintageText } from '../accounts/gwp.ts';
import { bookedMassText, type UnitSystem, withoutUnit } from '../units/display.ts';
import type { AccountsReport, BalanceLine } from './accounts-data.ts';
import { co2eFigure } from './co2e-text.ts';
import { leakRateText } from './rule-text.ts';
import { moneyText } from './share-text.ts';

/** A column of a table of balances. */
export interface BalanceColumn {
  readonly head: string;
  readonly cell: (line: BalanceLine) => string;
}

export interface BalanceColumnsOptions {
  readonly vintage: GwpVintage;
  readonly units: UnitSystem;
  /** Months with what was added for leaks in them; only for balances by month. */
  readonly trend?: AccountsReport['trend'] | undefined;
}

/** The columns that tell something of these balances: what nobody holds, and what is not known of any, is left out. */
export function balanceColumns(
  lines: readonly BalanceLine[],
  { units, vintage, trend = [] }: BalanceColumnsOptions,
): BalanceColumn[] {
  const figure = (kg: number | null) => (kg === null ? '–' : withoutUnit(bookedMassText(kg, units)));
  const holds = lines.some(({ onHandKg }) => onHandKg !== null);
  const month = new Map(trend.map((one) => [one.month, one]));
  const columns: (BalanceColumn & { readonly shown?: boolean })[] = [
    { head: 'opening', cell: ({ openingKg }) => figure(openingKg), shown: holds },
    { head: 'bought', cell: ({ boughtKg }) => figure(boughtKg), shown: holds },
    { head: 'paid', cell: ({ cost }) => moneyText(cost), shown: lines.some(({ cost }) => cost !== null) },
    { head: 'recovered', cell: ({ recoveredKg }) => figure(recoveredKg) },
    { head: 'charged', cell: ({ chargedKg }) => figure(chargedKg) },
    {
      head: `charged, t CO₂e (${vintageText[vintage]})`,
      cell: ({ charged }) => co2eFigure(charged.co2eT),
      shown: lines.some(({ charged }) => charged.co2eT !== null),
    },
    { head: 'returned', cell: ({ returnedKg }) => figure(returnedKg), shown: holds },
    {
      head: 'not weighed',
      cell: ({ untoldKg }) => figure(untoldKg),
      shown: lines.some(({ untoldKg }) => (untoldKg ?? 0) > 0),
    },
    {
      head: 'unexplained (95%)',
      cell: (line) => `${figure(line.unexplainedKg)} ± ${figure(line.unexplainedHalfWidthKg)}`,
    },
    { head: 'on hand', cell: ({ onHandKg }) => figure(onHandKg), shown: holds },
    {
      head: 'added for leaks',
      cell: ({ id }) => figure(month.get(id)?.leakKg ?? null),
      shown: month.size > 0,
    },
    {
      head: 'leak rate a year',
      cell: ({ id }) => leakRateText(month.get(id)?.leakRate ?? null),
      shown: month.size > 0,
    },
  ];
  return columns.filter(({ shown = true }) => shown);
}
