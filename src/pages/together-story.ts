import type { Facts } from '../records/tables/facts.ts';
import { lossSize } from '../checks/leak-kind.ts';
import { yearlyLossText } from '../units/display.ts';
import { rangeText } from '../units/range-text.ts';
import type { StoryMaterial } from './story-material.ts';

/**
 * What the standing pressure test and the rise test of a job say together: how large a leak they rule out and which test
 * does so, or that they contradict each other and what can lie behind that. Of one test alone, what that one rules out.
 *
 * @returns one paragraph; none where no test bounds a leak, or volume or refrigerant is not known
 */
export function togetherStory(material: StoryMaterial): string[] {
  if (material.facts.tests_disagree === true) return [disagreement(material.facts).join(' ')];
  const sentence = ruledOut(material);
  return sentence === '' ? [] : [sentence];
}

const tests = { 'pressure-test': 'the pressure test', 'rise-test': 'the rise test', both: 'the tests' } as const;

function ruledOut({ facts, units }: StoryMaterial): string {
  const { ruled_out_low_kg_per_year: low, ruled_out_high_kg_per_year: high, ruled_out_by: by } = facts;
  if (low === undefined || high === undefined || by === undefined) return '';
  const areBoth = facts.tests_disagree !== undefined;
  // Of one test that shows a leak its story has told the size.
  if (!areBoth && ((facts.pressure_drop_low_pa ?? 0) > 0 || (facts.leak_low_pa_per_s ?? 0) > 0)) return '';
  const who = areBoth ? 'Together the pressure test and the rise test' : `By itself ${tests[by]}`;
  const ruleOut = areBoth ? 'rule out' : 'rules out';
  // Where one of them points to a leak, what is ruled out is how large it is.
  const isShown = (facts.pressure_drop_low_pa ?? 0) > 0 || (facts.leak_low_pa_per_s ?? 0) > 0;
  const wholeCharge = 'a leak that would lose the whole charge within a year or far sooner';
  if (lossSize(facts, low, low) === 'whole-charge')
    return isShown
      ? `${who} ${areBoth ? 'leave' : 'leaves'} room for ${wholeCharge}.`
      : `${who} ${areBoth ? 'do' : 'does'} not rule out ${wholeCharge}.`;
  const [lowText, highText] = [low, high].map((kg) => yearlyLossText(kg, units));
  const basis = '95 %; standing at 70 °F (21 °C), as an order of magnitude';
  const range =
    lossSize(facts, low, high) === 'whole-charge'
      ? `${lowText} a year at best; through another sort of opening it may lose the whole charge within a year or far sooner`
      : `${rangeText(lowText, highText)} a year, by the sort of its opening`;
  const says = isShown
    ? `leave room for a leak of no more than ${range}`
    : `${ruleOut} a leak that would lose more than ${range}`;
  return `${who} ${says} (${basis}).${carried(areBoth, by)}`;
}

/** Which test rules out most, and what the vacuum cannot say. */
function carried(areBoth: boolean, by: 'pressure-test' | 'rise-test' | 'both'): string {
  const blind = ' A joint that opens only under pressure does not show in a rise test.';
  if (!areBoth) return by === 'rise-test' ? blind : '';
  if (by === 'both') return ` Each of them does so for some sorts of opening.${blind}`;
  return ` The figure is that of ${tests[by]}.${by === 'rise-test' ? blind : ''}`;
}

/** That the tests contradict each other, and what can lie behind it. */
/** Whether both tests of a job tell the same, in a sentence; empty where they do, or cannot be held against each other. */
export function contradictionText(facts: Partial<Facts>): string {
  return facts.tests_disagree === true ? disagreement(facts)[0] : '';
}

/** What contradicts what, and what can make it so. */
function disagreement(facts: Partial<Facts>): [contradiction: string, why: string] {
  const byPressure = (facts.pressure_drop_low_pa ?? 0) > 0;
  const byRise = (facts.leak_low_pa_per_s ?? 0) > 0;
  if (byPressure && !byRise)
    return [
      'The two tests contradict each other: the pressure test points to a leak that the rise test rules out.',
      'A leak that was mended between them can do that, a joint that opens only under pressure, or a hose or valve that leaked in the pressure test and was off in the rise test.',
    ];
  if (byRise && !byPressure)
    return [
      'The two tests contradict each other: the rise test points to a leak that the pressure test rules out.',
      'A leak that opened between them can do that, moisture or outgassing taken for a leak, or a hose, valve or gauge that leaked in the rise test and was off in the pressure test.',
    ];
  return [
    'The two tests contradict each other: both point to a leak, and one of them a larger one than the other leaves room for.',
    'A leak that opened or was mended between them can do that, moisture taken for a leak, or a hose that was on in one of the tests only.',
  ];
}
