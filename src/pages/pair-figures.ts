import { pageColours } from '../charts/chart-colours.ts';
import { pairedTrace, pairedUnit } from '../charts/paired-trace.ts';
import type { UnitSystem } from '../units/display.ts';
import { chargeCharts } from './charge-charts.ts';
import type { TopicPair } from './coach-data.ts';
import { pairText } from './coach-text.ts';
import type { NamedUnit } from './fleet-data.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';
import { unitText } from './standing-out-text.ts';

/** Height of the chart with axes and labels [px]. */
const heightPx = 280;

/** A recording of somebody's job beside that of a like job without what was found on it; false where nothing of them can be drawn. */
export async function pairFigures(
  pair: TopicPair,
  who: NamedUnit,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html | false> {
  const { shown, ownJobId, goodJobId } = pair;
  const text = pairText(pair, who);
  const told = html`<p>${text}</p>`;
  if (shown.quantity === 'charge') {
    const own = await chargeCharts(ownJobId, shown.own, units, charts);
    const good = await chargeCharts(goodJobId, shown.good, units, charts);
    if (own === null || good === null) return false;
    return html`${told}<div class="pair even"><div><h4>${namedId('Job', ownJobId)}</h4>${own}</div><div><h4>${namedId('Job', goodJobId)}, without it</h4>${good}</div></div>`;
  }
  const { quantity, own, good } = shown;
  const chart = pairedTrace(own, good, { quantity, units, colours: pageColours });
  if (chart === null) return false;
  const questions = {
    vacuum: 'How did the vacuum go on both?',
    pressure: 'How did the pressure test go on both?',
    superheat: 'How far was the suction line above saturation on both?',
    subcooling: 'How far was the liquid line below saturation on both?',
  };
  const key = [
    { mark: 'readings', text: namedId('job', ownJobId) },
    { mark: 'fitted', text: `${namedId('job', goodJobId)}, without it` },
  ] as const;
  return html`${told}${await charts.figure({
    name: 'paired-trace',
    subject: unitText(who),
    title: questions[quantity],
    note: pairedUnit(quantity, units),
    chart,
    description: `${questions[quantity]} ${text}`,
    heightPx,
    key,
  })}`;
}
