import type { PlanAnswer } from '../facts/plan/plan-answer.ts';
import type { TestPlan } from '../facts/plan/test-plan.ts';
import { standingK } from '../facts/standing-vapour.ts';
import { testedVolume } from '../facts/tested-volume.ts';
import type { LossBand } from '../physics/loss-in-operation.ts';
import { fromInterchange } from '../units/unit.ts';
import {
  durationText,
  pressureChangeText,
  psigOrAbsoluteBarText,
  temperatureChangeText,
  temperatureText,
  type UnitSystem,
  vacuumText,
  volumeText,
} from '../units/display.ts';
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
      ...(plan.pressureTest === undefined ? [] : [settings('Pressure test', pressureSettings(plan, units), assumed)]),
      ...(plan.riseTest === undefined ? [] : [settings('Rise test', riseSettings(plan, units), assumed)]),
    ],
    cautions: [
      'Dry nitrogen only, never oxygen or air; through a regulator and with a relief device; never above the equipment’s rating.',
      'A longer test sees smaller leaks. More pressure is no way to see them.',
      'What a test does not see may be there all the same: no figure here says that a system is safe.',
    ],
  };
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

function circuitSettings({ volumeL, refrigerant, atmospherePa }: TestPlan, units: UnitSystem): Setting[] {
  const { highL = volumeL } = testedVolume({ job: { tested_volume_l: volumeL } }) ?? {};
  const air =
    units === 'si'
      ? psigOrAbsoluteBarText(atmospherePa, atmospherePa, 'si')
      : `${fromInterchange(atmospherePa, 'psia').toFixed(2)} psia`;
  return [
    ['refrigerant', refrigerant],
    ['volume', volumeText(volumeL, units)],
    [null, `the volume right to ${Math.round(100 * (highL / volumeL - 1))} %`],
    ['altitude', `air of ${air}`],
  ];
}

function pressureSettings({ pressureTest, atmospherePa }: TestPlan, units: UnitSystem): Setting[] {
  if (pressureTest === undefined) return [];
  const { testPa, stepPa, intervalS, temperatureK, temperatureUncertaintyK } = pressureTest;
  return [
    ['pressure', psigOrAbsoluteBarText(testPa, atmospherePa, units)],
    ['pressureStep', `gauge steps of ${pressureChangeText(stepPa, units)}`],
    ['temperature', `gas at ${temperatureText(temperatureK, units)}`],
    [
      'temperatureUncertainty',
      `its change over the test known to ${temperatureChangeText(temperatureUncertaintyK, units)}`,
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
