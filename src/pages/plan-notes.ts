import type { PlanAnswer } from '../facts/plan/plan-answer.ts';
import type { TestPlan } from '../facts/plan/test-plan.ts';
import { standingK } from '../facts/standing-vapour.ts';
import type { LossBand } from '../physics/loss-in-operation.ts';
import { rangeText } from '../units/range-text.ts';
import { fromInterchange } from '../units/unit.ts';
import {
  durationText,
  gaugePressureText,
  pressureChangeText,
  psigOrAbsoluteBarText,
  temperatureChangeText,
  temperatureText,
  type UnitSystem,
  vacuumText,
  volumeText,
} from '../units/display.ts';
import { plannedVolume } from '../facts/plan/planned-volume.ts';
import { bandText } from './plan-tables.ts';

/** What an answer means and rests on, in sentences. */
export interface PlanNotes {
  /** How to read the figures. */
  readonly meaning: readonly string[];
  /** Which test to trust for which leak. */
  readonly trust: readonly string[];
  /** What was given and what assumed. */
  readonly basis: readonly string[];
  readonly cautions: readonly string[];
}

/** Settings of a plan that nobody gave, by the name of the option that would. */
export type AssumedSettings = ReadonlySet<string>;

/** The notes that no figure of a plan may stand without. */
export function planNotes(plan: TestPlan, answer: PlanAnswer, assumed: AssumedSettings, units: UnitSystem): PlanNotes {
  return {
    meaning: meaning(plan, answer, units),
    trust: trust(plan, answer, units),
    basis: [
      settings('Circuit', circuitSettings(plan, units), assumed),
      ...(plan.pressureTest === undefined
        ? []
        : [settings('Pressure test', pressureSettings(plan, units), assumed), temperatureNote(units)]),
      ...(plan.riseTest === undefined ? [] : [settings('Rise test', riseSettings(plan, units), assumed)]),
    ],
    cautions: [
      'Dry nitrogen only, never oxygen or air; through a regulator and with a relief device; never above the equipment’s rating.',
      'For smaller leaks a test is made longer. More pressure must not be used for that, and never any above the rating.',
      'What a test does not see may be there all the same: no figure here says that a system is safe.',
    ],
  };
}

/**
 * What the temperature of the pipe has to do with it: beside the even day the spread of what the gas does of the pipe's
 * changes (`followingSpread`), of a night's worth of them.
 */
function temperatureNote(units: UnitSystem): string {
  const { even, night, unknown } = {
    ip: { even: '2 °F', night: '12 °F', unknown: '6 °F' },
    si: { even: '1.1 K', night: '6.7 K', unknown: '3.3 K' },
  }[units];
  return `That holds only where a clamp logs the temperature of the pipe all through, from filling to the end: without it nobody can tell a drop from a cooling. To know its change to ${even} (95 %, either way) is usual on an even day; of a night on which it cools evenly by ${night}, one way, some ${unknown} remain unknown. Nothing decides more of what a long test sees.`;
}

function meaning({ pressureTest, riseTest }: TestPlan, { needed }: PlanAnswer, units: UnitSystem): string[] {
  return [
    `The smallest leak that such a test would tell, four times of five. What it would lose is an order of magnitude: the system standing at ${temperatureText(standingK, units)}, from least to most over the sorts of opening that a leak may be (fine channel, hole, capillary).`,
    ...(needed === undefined
      ? []
      : ['At best: an opening of the sort that shows soonest; nobody knows which sort it is.']),
    ...(pressureTest === undefined
      ? []
      : [
          'The length of a pressure test counts from filling on; its first minutes, in which the gas settles, are left out, and its drop is corrected for temperature.',
        ]),
    ...(pressureTest === undefined || riseTest === undefined
      ? []
      : [
          'The two are not held to the same line: a drop counts where it is sure at 99.9 %, as the check of a pressure test has it, a climb at 97.5 %.',
        ]),
    ...(riseTest === undefined
      ? []
      : [
          'A climb that shows may still be moisture or outgassing; one told for a leak is too steep or too steady for either. That is of a dry system: what slackens beside a leak hides it.',
        ]),
  ];
}

function trust({ pressureTest, riseTest }: TestPlan, answer: PlanAnswer, units: UnitSystem): string[] {
  if (riseTest === undefined) return [];
  const doubt =
    'believe it when it shows one, not when it shows none. A vacuum pulls with one atmosphere only: a joint that opens under pressure, or a leak that oil closes, need not show in it, however long it stands.';
  if (pressureTest === undefined) return [`Of a leak, ${doubt} The leak test is the pressure test.`];
  const [pressure, told] = [answer.pressureRows.at(-1), answer.riseRows.at(-1)?.told];
  const over = pressure === undefined ? '' : `over ${durationText(pressure.durationS)}`;
  const sizes = pressure === undefined ? '' : `, ${over} those of ${bandText(pressure, units)} a year or more`;
  return [
    `Trust the pressure test for the leaks that it sees${sizes}: it pushes a leak as operation will.`,
    `${smallerOnes(pressure, told, over, units)} ${doubt} So it adds to the pressure test and never stands for it. What neither sees, soap on every joint may find.`,
  ];
}

/** What the rise test has to say of leaks that the pressure test is too dull for. */
function smallerOnes(
  pressure: LossBand | undefined,
  told: LossBand | undefined,
  over: string,
  units: UnitSystem,
): string {
  if (pressure === undefined || told === undefined) return 'Smaller ones a rise test may tell:';
  if (told.highKgPerYear < pressure.lowKgPerYear)
    return `Smaller ones, ${over} down to ${bandText(told, units)} a year, only the rise test tells:`;
  return told.lowKgPerYear < pressure.highKgPerYear
    ? 'Whether the rise test tells smaller ones rests on what the opening is like:'
    : 'Smaller ones the rise test does not tell either:';
}

/** A setting with the option that gives it; null where none does. */
type Setting = readonly [option: string | null, text: string];

/** Settings as a sentence: what was given first, then what was assumed. */
function settings(of: string, all: readonly Setting[], assumed: AssumedSettings): string {
  const texts = (isAssumed: boolean) =>
    all.flatMap(([option, text]) => ((option === null || assumed.has(option)) === isAssumed ? [text] : [])).join(', ');
  const [given, taken] = [texts(false), texts(true)];
  const parts = [
    ...(given === '' ? [] : [given]),
    ...(taken === '' ? [] : [`assumed (common practice, no source) ${taken}`]),
  ];
  return `${of}: ${parts.join('; ')}.`;
}

function circuitSettings(plan: TestPlan, units: UnitSystem): Setting[] {
  const { refrigerant, atmospherePa } = plan;
  const air =
    units === 'si'
      ? psigOrAbsoluteBarText(atmospherePa, atmospherePa, 'si')
      : `${fromInterchange(atmospherePa, 'psia').toFixed(2)} psia`;
  return [['refrigerant', refrigerant], ...volumeSettings(plan, units), ['altitude', `air of ${air}`]];
}

function volumeSettings(plan: TestPlan, units: UnitSystem): Setting[] {
  const { volumeL, estimated } = plan;
  const { lowL = volumeL, highL = volumeL } = plannedVolume(plan) ?? {};
  if (estimated === undefined)
    return [
      ['volume', volumeText(volumeL, units)],
      [null, `the volume right to ${Math.round(100 * (highL / volumeL - 1))} %`],
    ];
  const parts = estimated.hasOutdoorUnit ? 'lines, indoor coil and outdoor unit' : 'lines and indoor coil alone';
  return [
    ['volume', `${volumeText(volumeL, units)} as estimated for ${parts}`],
    [null, `coils by the rated cooling, the volume ${rangeText(volumeText(lowL, units), volumeText(highL, units))}`],
  ];
}

function pressureSettings({ pressureTest, atmospherePa }: TestPlan, units: UnitSystem): Setting[] {
  if (pressureTest === undefined) return [];
  const { testPa, stepPa, intervalS, temperatureK, temperatureUncertaintyK } = pressureTest;
  return [
    ['pressure', gaugePressureText(testPa, atmospherePa, units)],
    ['pressureStep', `gauge steps of ${pressureChangeText(stepPa, units)}`],
    ['temperature', `gas at ${temperatureText(temperatureK, units)}`],
    [
      'temperatureUncertainty',
      `its change over the test known to ${temperatureChangeText(temperatureUncertaintyK, units)} (95 %, either way)`,
    ],
    [null, `a reading every ${durationText(intervalS)}`],
  ];
}

function riseSettings({ riseTest }: TestPlan, units: UnitSystem): Setting[] {
  if (riseTest === undefined) return [];
  const { fromPa, stepPa, noiseRatio, intervalS, pumpedS } = riseTest;
  return [
    ['from', `valve-off at ${vacuumText(fromPa, units)}`],
    ['pumped', `${durationText(pumpedS)} of pumping before`],
    ['vacuumStep', `gauge steps of ${vacuumText(stepPa, units)}`],
    ['vacuumNoise', `noise of ${Number((100 * noiseRatio).toPrecision(3))} %`],
    ['readingEvery', `a reading every ${durationText(intervalS)}`],
  ];
}
