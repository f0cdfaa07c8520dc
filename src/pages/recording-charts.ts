import { pageColours } from '../charts/chart-colours.ts';
import { riseReach, riseTrace } from '../charts/rise-trace.ts';
import { vacuumTrace } from '../charts/vacuum-trace.ts';
import { durationText, riseRateText, type UnitSystem, vacuumText, withoutUnit } from '../units/display.ts';
import type { KeyEntry } from './chart-key.ts';
import { type Html, html } from './html.ts';
import { namedId } from './named-id.ts';
import type { PageCharts } from './page-charts.ts';
import { phaseText } from './phase-readings.ts';
import type { JobEvidence } from './job-evidence-data.ts';

/** Heights of the charts with axes and labels [px]. */
const vacuumHeightPx = 298;
const riseHeightPx = 284;

/** The charts of a job's recording: how the vacuum went, and how the pressure rose after valve-off. */
export async function recordingCharts(
  job: JobEvidence & { trace: NonNullable<JobEvidence['trace']> },
  units: UnitSystem,
  charts: PageCharts,
): Promise<Html> {
  const { trace, phases, limits, isolation, fitted, stall, valveOff } = job;
  const name = namedId('Job', job.jobId);
  const unit = units === 'ip' ? 'microns' : 'Pa, absolute';
  const whole = vacuumTrace(trace, { phases, limits, stall, valveOff, units, colours: pageColours });
  const rise = { isolation, phases, limits, fitted, units, colours: pageColours };
  const risen = riseTrace(trace, rise);
  const vacuumKey = keyOfVacuum(job, units);
  const riseKey = keyOfRise(job, units);
  const wholeText = [...phases.map((span) => phaseText(span, job, units)), ...vacuumKey.map(({ text }) => text)].join(
    '; ',
  );
  const riseText = [
    isolation !== null ? phaseText(isolation, job, units) : '',
    ...riseKey.map(({ text }) => text),
  ].join('; ');
  return html`<div class="pair">
${await charts.figure({
  name: 'vacuum-trace',
  subject: name,
  title: 'How did the vacuum go?',
  note: `${unit}, logarithmic`,
  chart: whole,
  description: `${name}: vacuum over time. ${wholeText}.`,
  heightPx: vacuumHeightPx,
  key: vacuumKey,
})}
${
  risen !== null &&
  (await charts.figure({
    name: 'rise-trace',
    subject: name,
    title: 'Was the rise after valve-off steady?',
    note: `${unit}, linear from zero`,
    chart: risen,
    description: `${name}: pressure during the isolation. ${riseText}.`,
    heightPx: riseHeightPx,
    key: riseKey,
  }))
}
</div>`;
}

function keyOfVacuum({ trace, stall, valveOff }: JobEvidence, units: UnitSystem): KeyEntry[] {
  const entries: KeyEntry[] = trace?.over.includes(true) ? [{ mark: 'over', text: 'above the gauge’s range' }] : [];
  if (stall !== null)
    entries.push({
      mark: 'stall',
      text: `stood for ${durationText(stall.endS - stall.startS)} at ${vacuumText(stall.pa, units)}`,
    });
  if (valveOff !== null)
    entries.push({
      mark: 'valve-off',
      text: `the valve was shut somewhere in these ${durationText(valveOff.highS - valveOff.lowS)}`,
    });
  return entries;
}

function keyOfRise({ trace, isolation, phases, limits, fitted }: JobEvidence, units: UnitSystem): KeyEntry[] {
  const reach = trace === null ? null : riseReach(trace, { isolation, phases, limits, fitted, units });
  if (reach === null) return [];
  const entries: KeyEntry[] = [{ mark: 'readings', text: 'readings' }];
  if (fitted !== null) {
    const { leakPaPerS, leakLowPaPerS, leakHighPaPerS, plateau } = fitted;
    const [low, high] = [leakLowPaPerS, leakHighPaPerS].map((rate) => riseRateText(rate, units));
    entries.push(
      { mark: 'fitted', text: 'fitted' },
      {
        mark: 'steady',
        text:
          leakPaPerS > 0
            ? `steady, as a leak: ${riseRateText(leakPaPerS, units)} (${withoutUnit(low)} to ${high}, 95 %)`
            : `steady, as a leak: none needed, ${high} at most (95 %)`,
      },
    );
    if (plateau !== null) {
      const { pa, lowPa, highPa } = plateau;
      const most = highPa === null ? 'or more' : `to ${vacuumText(highPa, units)}`;
      const text = `slackens towards ${vacuumText(pa, units)} (${vacuumText(lowPa, units)} ${most})`;
      entries.push(
        reach.showsPlateau ? { mark: 'plateau', text } : { mark: 'none', text: `${text}, above this chart` },
      );
    }
  } else {
    entries.push({ mark: 'none', text: 'nothing was fitted to this isolation' });
  }
  for (const { label, pa } of reach.limitsAbove)
    entries.push({ mark: 'none', text: `${label}: ${vacuumText(pa, units)}, above this chart` });
  return entries;
}
