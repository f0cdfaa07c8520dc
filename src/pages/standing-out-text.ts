import type { FleetReport, NamedUnit, UnitExcess, UnitStandingOut } from './fleet-data.ts';
import { countText, groupedCount, percentText } from './share-text.ts';

/** What an instrument is called. */
const kindWords: Readonly<Record<NamedUnit['kind'], string>> = {
  technician: '',
  crew: 'crew ',
  pump: 'pump ',
  'hose-set': 'hose set ',
  gauge: 'gauge ',
  scale: 'scale ',
  fleet: '',
};

/** Checks that are told of at most. */
const mostChecks = 3;

/** What is said where nobody has enough judged jobs to be held against others. */
export const nothingToldYet =
  'Nobody has ten judged jobs in any skill beside others who have: nothing can be told yet.';

/** Whether anybody, or any crew or gear, was held against others. */
export function isAnybodyHeld({ tested }: Pick<FleetReport, 'tested'>): boolean {
  return tested.people + tested.shared > 0;
}

/** A unit by kind and name, such as "gauge G-7"; the kind is left out where the name begins with it. */
export function unitText({ kind, name }: NamedUnit): string {
  return name.toLowerCase().startsWith(kind.split('-')[0]) ? name : `${kindWords[kind]}${name}`;
}

/** What was found of a unit that stands out, beside what was expected. */
export function excessText({ rate, skill }: UnitExcess): string {
  const interval = `${percentText(rate.share)}, ${Math.round(100 * (rate.low ?? 0))}–${percentText(rate.high)}`;
  return `${groupedCount(rate.found)} of ${countText(rate.jobs, 'judged job')} (${interval}) had ${skill.counts}; of such jobs ${expectedText(rate.expected)} were to be expected.`;
}

/** A check in words, where nobody has to type its name. */
export function checkWords(checkId: string): string {
  return checkId.replaceAll('-', ' ');
}

/**
 * Which checks flagged it most.
 *
 * @param name what a check is called
 */
export function mostText({ checks }: UnitExcess, name: (checkId: string) => string): string {
  const told = checks.slice(0, mostChecks).map(({ checkId, unit, all }) => {
    const share = `${groupedCount(unit.found)} of ${groupedCount(unit.jobs)} (${percentText(unit.found / unit.jobs)}, all ${percentText(all.found / all.jobs)})`;
    return `${name(checkId)} ${share}`;
  });
  return told.length === 0 ? '' : `Most: ${told.join('; ')}.`;
}

/** To whom or what it is laid, how that was told, and what to do next. */
export function laidToText({ unit, laidTo }: UnitExcess): string {
  const [people, shared] = [laidTo.people.map(unitText), laidTo.shared.map(unitText)];
  const isPerson = unit.kind === 'technician';
  switch (laidTo.verdict) {
    case 'people':
      return isPerson
        ? `Laid to ${unit.name}${shared.length === 0 ? '' : `: it goes with the person, not with ${joined(shared, 'or')}`}. Ride along, and look at some of these jobs together.`
        : `Laid to ${joined(people, 'and')}, not to what they share. Ride along with them.`;
    case 'shared':
      return laidTo.shared.every(({ kind }) => kind === 'crew')
        ? `Laid to what ${joined(shared, 'or')} shares, not to single people: look at its habits, its lead, and gear that the records do not name.`
        : `Laid to what is shared, not to people: ${joined(shared, 'or')} explains it for all who share it.${shared.length > 1 ? ' These hardly ever came apart: swap one at a time, and see with which it goes.' : ' Swap it, and see whether it goes with it.'}`;
    case 'both':
      return `Laid in part to ${joined(people, 'and')}, in part to ${joined(shared, 'or')}: one alone does not explain it. Look at what is shared first, then ride along.`;
    case 'not-separable':
      if (people.length === 0)
        return `Not separable from people: nobody is on record for enough of these jobs. ${swapText(laidTo.shared)} for ten jobs, and see whether it goes along.`;
      return isPerson
        ? `Not separable: too few of these jobs set ${unit.name} and ${joined(shared, 'or')} apart. ${swapText(laidTo.shared)} for some thirty jobs, and see with which it goes.`
        : `Not separable: too few of these jobs set ${joined(shared, 'or')} and ${joined(people, 'or')} apart. ${swapText(laidTo.shared)} for some thirty jobs, and see with which it goes.`;
  }
}

/**
 * Those who stand out, without what another of them says as well: a crew whose excess is laid to people who stand out themselves; gear
 * that cannot be told from a crew or a person who stands out; and whoever or whatever has an excess that is laid to the same.
 */
export function withoutRepeats(all: readonly UnitStandingOut[]): UnitStandingOut[] {
  const kept: UnitStandingOut[] = [];
  for (const one of all.toSorted((a, b) => rank(a) - rank(b))) {
    const alike = all.filter(({ skill }) => skill.id === one.skill.id);
    const ofPeople = alike.filter(({ unit }) => unit.kind === 'technician').map(({ unit }) => unit.id);
    const isOfPeople =
      one.unit.kind !== 'technician' &&
      one.laidTo.verdict === 'people' &&
      one.laidTo.people.every(({ id }) => ofPeople.includes(id));
    if (!isOfPeople && !kept.some((other) => other.skill.id === one.skill.id && saysIt(other, one))) kept.push(one);
  }
  return all.filter((one) => kept.includes(one));
}

/** Whether what is said of one says enough of another that comes after it. */
function saysIt({ unit, laidTo }: UnitStandingOut, other: UnitStandingOut): boolean {
  const isShared = (of: NamedUnit): boolean => laidTo.shared.some((shared) => isSame(shared, of));
  if (other.unit.kind === 'technician') return other.laidTo.verdict === 'shared' && other.laidTo.shared.every(isShared);
  if (unit.kind === 'technician') return laidTo.verdict === 'not-separable' && isShared(other.unit);
  return (
    laidTo.verdict !== 'people' &&
    (isShared(other.unit) || (other.laidTo.verdict === 'shared' && other.laidTo.shared.every(isShared)))
  );
}

const isSame = (one: NamedUnit, other: NamedUnit): boolean => one.kind === other.kind && one.id === other.id;

/** How people and what they share are taken apart. */
function swapText(shared: readonly NamedUnit[]): string {
  const isCrew = shared.some(({ kind }) => kind === 'crew');
  const isGear = shared.some(({ kind }) => kind !== 'crew');
  return isCrew && isGear ? 'Swap gear or crews' : isCrew ? 'Swap crews' : 'Swap the gear';
}

/** People before crews, crews before gear; people whose excess is laid to what they share last. */
function rank({ unit, laidTo }: UnitStandingOut): number {
  if (unit.kind === 'technician') return laidTo.verdict === 'shared' ? 3 : 0;
  return unit.kind === 'crew' ? 1 : 2;
}

function expectedText(expected: number): string {
  return expected < 9.95 ? expected.toFixed(1) : groupedCount(Math.round(expected));
}

function joined(names: readonly string[], word: 'and' | 'or'): string {
  if (names.length > 6) return `${names.slice(0, 5).join(', ')} ${word} ${names.length - 5} more`;
  return names.length < 2 ? (names[0] ?? 'nothing') : `${names.slice(0, -1).join(', ')} ${word} ${names.at(-1)}`;
}
