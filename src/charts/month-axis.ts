import type { PositionFieldDef } from 'vega-lite/types_unstable/channeldef.js';

const monthIndex = '(toNumber(slice(datum.value, 5, 7)) - 1)';
const monthName = `slice('JanFebMarAprMayJunJulAugSepOctNovDec', 3 * ${monthIndex}, 3 * ${monthIndex} + 3)`;

/**
 * An axis of months in their order, the year under the first and under each January.
 *
 * @param months YYYY-MM
 * @param labelPadding room between axis and names [px]
 */
export function monthAxis(months: readonly string[], labelPadding = 5): PositionFieldDef<string> {
  return {
    field: 'month',
    type: 'ordinal',
    sort: null,
    title: null,
    axis: {
      labelAngle: 0,
      values: labelledMonths(months),
      labelOverlap: 'greedy',
      labelSeparation: 6,
      labelPadding,
      labelExpr: `datum.index === 0 || ${monthIndex} === 0 ? [${monthName}, slice(datum.value, 0, 4)] : ${monthName}`,
    },
  };
}

/** Months with a label: each of up to a year, the quarters' first of up to four years, else each January. */
function labelledMonths(months: readonly string[]): string[] {
  if (months.length <= 13) return [...months];
  const kept = months.length <= 48 ? ['01', '04', '07', '10'] : ['01'];
  return months.filter((month) => kept.includes(month.slice(5, 7)));
}
