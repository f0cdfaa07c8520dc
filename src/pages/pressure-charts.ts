import { pageColours } from '../charts/chart-colours.ts';
import { heldPressureTrace } from '../charts/held-pressure-trace.ts';
import type { DropRange, PressureHoldSpan } from '../charts/pressure-recording.ts';
import { limitsAbove, standingTestTrace } from '../charts/standing-test-trace.ts';
import { durationText, gaugePressureText, temperatureText, type UnitSystem } from '../units/display.ts';
import { rangeText } from '../units/range-text.ts';
import { uncertainChangeText } from '../units/uncertain-change-text.ts';
import { uncertainRiseText } from '../units/uncertain-rise-text.ts';
import type { KeyEntry } from './chart-key.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';
import { asideK } from './pressure-test-story.ts';
import type { PressureEvidence } from './job-evidence-data.ts';

/** Heights of the charts with axes and labels [px]. */
const wholeHeightPx = 298;
const heldHeightPx = 284;
/** A share of the pipe's changes that differs from all of them by this much is worth a word. */
const apartRatio = 0.1;

/** The charts of a job's standing pressure test: how it went, and whether the pressure held; its holds as a table. */
export async function pressureCharts(
  jobId: string,
  test: PressureEvidence,
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html> {
  const { trace, atmospherePa, holds, judged, corrected, drop, limits, allowedDropPa } = test;
  const name = namedId('Job', jobId);
  const whole = standingTestTrace(trace, { atmospherePa, holds, judged, limits, units, colours: pageColours });
  const hold = heldPressureTrace(trace, { judged, corrected, drop, allowedDropPa, units, colours: pageColours });
  const wholeKey: KeyEntry[] = limitsAbove(trace, { atmospherePa, limits }).map(({ label, pa }) => ({
    mark: 'none',
    text: `${label}: ${gaugePressureText(pa, atmospherePa, units)}, above this chart`,
  }));
  const heldKey = keyOfHold(test, units);
  const wholeText = [...holds.map((span) => holdText(span, test, units)), ...wholeKey.map(({ text }) => text)].join(
    '; ',
  );
  const question =
    drop === null ? 'How did the pressure move in the hold?' : 'Did the nitrogen hold, once temperature is taken out?';
  const unit = `${units === 'ip' ? 'psi' : 'bar'}, change since the gas had settled`;
  return html`<div class="pair second-wide">
${await charts.figure({
  name: 'standing-test-trace',
  subject: name,
  title: 'How did the pressure test go?',
  note: units === 'ip' ? 'psig' : 'bar gauge',
  chart: whole,
  description: `${name}: pressure test over time. ${wholeText === '' ? 'No hold' : wholeText}.`,
  heightPx: wholeHeightPx,
  key: wholeKey,
})}
${
  hold !== null &&
  (await charts.figure({
    name: 'held-pressure-trace',
    subject: name,
    title: question,
    note: unit,
    chart: hold,
    description: `${name}: the judged hold. ${heldKey.map(({ text }) => text).join('; ')}.`,
    heightPx: heldHeightPx,
    key: heldKey,
  }))
}
</div>
${holds.length > 0 && holdsTable(jobId, test, units)}`;
}

function keyOfHold({ judged, drop, line, corrected, followingRatio }: PressureEvidence, units: UnitSystem): KeyEntry[] {
  if (judged === null) return [];
  const settling: KeyEntry[] =
    judged.settledS > judged.startS
      ? [{ mark: 'grey-band', text: `settling, left out: ${durationText(judged.settledS - judged.startS)}` }]
      : [];
  if (drop === null || corrected === null) {
    const why =
      line === null
        ? 'the temperature of the pipe was not logged from end to end, so what a tight system would show is not known'
        : 'what a tight system would show cannot be told';
    return [{ mark: 'readings', text: 'as read' }, ...settling, { mark: 'none', text: why }];
  }
  return [
    { mark: 'readings', text: 'temperature taken out' },
    { mark: 'fine', text: 'as read' },
    { mark: 'fitted', text: 'a tight system: 0' },
    { mark: 'steady', text: dropText(drop, units) },
    ...settling,
    ...(line === null ? [] : [{ mark: 'none', text: pipeText(line, followingRatio, units) } as const]),
  ];
}

/** The drop in the key; where the pressure is likelier to have risen, that. */
function dropText(drop: DropRange, units: UnitSystem): string {
  const rise = uncertainRiseText(drop, units);
  return rise === undefined ? `drop: ${uncertainChangeText(drop, units)}` : `no drop: rose by ${rise}`;
}

/** What the pipe did, and how much of that the gas. */
function pipeText(
  line: NonNullable<PressureEvidence['line']>,
  followingRatio: number | null,
  units: UnitSystem,
): string {
  const { heldK, endK, coldestK, warmestK } = line;
  const range = (lowK: number, highK: number) => rangeText(temperatureText(lowK, units), temperatureText(highK, units));
  const isBeyond = coldestK < Math.min(heldK, endK) - asideK || warmestK > Math.max(heldK, endK) + asideK;
  const on = isBeyond ? `, on the way ${range(coldestK, warmestK)}` : '';
  const follows =
    followingRatio === null || Math.abs(followingRatio - 1) < apartRatio || warmestK - coldestK < 2 * asideK
      ? ''
      : `; the gas went along with about ${Math.round(100 * followingRatio)} % of that`;
  return `pipe: ${range(heldK, endK)}${on}${follows}`;
}

/** A hold in words: its length, and from where to where the pressure went. */
function holdText(span: PressureHoldSpan, test: PressureEvidence, units: UnitSystem): string {
  const [first, last] = readingsOf(span, test, units);
  const name = span.startS === test.judged?.startS ? 'judged hold' : 'hold';
  return `${name} ${durationText(span.endS - span.startS)}, from ${first} to ${last}`;
}

/** First and last reading of a hold, as people read them. */
function readingsOf(
  { startS, endS }: PressureHoldSpan,
  { trace, atmospherePa }: PressureEvidence,
  units: UnitSystem,
): [string, string] {
  const read = trace.testPa.filter((_, index) => {
    const atS = trace.elapsedS[index] ?? -1;
    return atS >= startS && atS <= endS;
  });
  const text = (pa: number | undefined) => (pa === undefined ? '–' : gaugePressureText(pa, atmospherePa, units));
  return [text(read[0]), text(read.at(-1))];
}

function holdsTable(jobId: string, test: PressureEvidence, units: UnitSystem): Html {
  const { holds, judged } = test;
  return html`<details><summary>Holds as a table</summary>
<div class="scroll" tabindex="0" role="region" aria-label="Holds of ${namedId('job', jobId)}">
<table><thead><tr><th scope="col">hold</th><th scope="col">from, min</th><th scope="col">to, min</th><th scope="col">first reading</th><th scope="col">last reading</th></tr></thead>
<tbody>${holds.map((span, index) => {
    const [first, last] = readingsOf(span, test, units);
    return html`<tr><th scope="row">${index + 1}${span.startS === judged?.startS && ', judged'}</th><td>${(span.startS / 60).toFixed(1)}</td><td>${(span.endS / 60).toFixed(1)}</td><td>${first}</td><td>${last}</td></tr>`;
  })}</tbody></table></div></details>`;
}
