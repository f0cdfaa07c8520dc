import { checkNamed, checks } from '../checks/checks.ts';
import type { Check, CheckGroup } from '../checks/check.ts';
import { type FleetJobs, type Grouping, groupings } from './fleet-jobs.ts';
import { jobFactorNames, type MixFactorName } from './job-mix.ts';

/** Something that people do well or badly, and that the checks of a job tell of. */
export interface Skill {
  readonly id: string;
  readonly title: string;
  /** What is counted of the jobs, as in "jobs with …". */
  readonly counts: string;
  readonly checkIds: readonly string[];
  /** Whether jobs count that were flagged, or those that have no log to judge by. */
  readonly by: 'flagged' | 'missing';
  /** On what the expectation rests. */
  readonly factors: readonly MixFactorName[];
  /** Gear whose fault its checks would find, and that a crew may share. */
  readonly instruments: readonly Grouping[];
}

/** What happened to a skill in a job. */
export const skillOutcome = { notEvaluated: 0, missing: 1, clean: 2, found: 3 } as const;

/** A gauge of coarse steps or little accuracy sees other rises, and looks stuck; how long a hold was it sees as any other. */
const gaugeSight: readonly MixFactorName[] = ['gauge_accuracy_ratio', 'gauge_step_pa'];
const riseSight: readonly MixFactorName[] = [...gaugeSight, 'rise_test_s', 'smallest_leak_seen_pa_per_s'];
const pressureSight: readonly MixFactorName[] = ['pressure_test_s', 'smallest_drop_seen_pa'];

/** What the checks of each group show; a test that was not made, or too short to show anything, is another skill. */
const shown: Readonly<Record<CheckGroup, Pick<Skill, 'title' | 'counts' | 'factors'>>> = {
  'pressure-test': {
    title: 'pressure test',
    counts: 'a pressure that did not hold or was wrong',
    factors: pressureSight,
  },
  evacuation: { title: 'evacuation', counts: 'a poor evacuation', factors: [] },
  rise: { title: 'rise test', counts: 'a rise that was too much', factors: riseSight },
  charge: { title: 'charge', counts: 'a doubtful charge', factors: ['scale_step_kg'] },
  'run-test': { title: 'run test', counts: 'a system that did not run as it should', factors: [] },
  recording: {
    title: 'recording',
    counts: 'a doubtful recording',
    factors: gaugeSight,
  },
};

/** What a fault of would make some of the checks flag a job, whoever did it. */
export function gearOf(checkIds: readonly string[]): Grouping[] {
  const gear = new Set<Grouping>(checkIds.flatMap((id) => checkNamed(id)?.gear ?? []));
  return groupings.filter((grouping) => gear.has(grouping));
}

/** Checks that ask whether a test was made, and so that it could show something. */
const asksForTest = (check: Check): boolean => check.asks === 'test-made';

const testsMade = {
  counts: 'a test left out or too short to show anything',
  by: 'flagged',
  factors: jobFactorNames,
  instruments: [],
} as const;

/** Whether the tests of one group of checks were made, as a skill of its own. */
export function testMadeSkill(group: string): Skill {
  const checkIds = checks.filter((check) => check.group === group && asksForTest(check)).map((check) => check.id);
  return { ...testsMade, id: `${group}-made`, title: `${shown[group as CheckGroup].title} made`, checkIds };
}

/** Checks that are not evaluated or missing where the log is. */
const logs: Readonly<Record<string, { readonly title: string; readonly checkId: string }>> = {
  'pressure-test-log': { title: 'log of the pressure test', checkId: 'no-pressure-test' },
  'vacuum-log': { title: 'vacuum log', checkId: 'no-rise-test' },
  'weigh-in-log': { title: 'record of the weigh-in', checkId: 'no-weigh-in' },
  'run-test-log': { title: 'log of the run test', checkId: 'no-run-test' },
};

/** Every skill, in the order of the work. */
export const skills: readonly Skill[] = [
  ...Object.entries(shown).map(([id, skill]): Skill => {
    const checkIds = checks.filter((check) => check.group === id && !asksForTest(check)).map((check) => check.id);
    const factors = [...jobFactorNames, ...skill.factors];
    return { ...skill, id, checkIds, by: 'flagged', factors, instruments: gearOf(checkIds) };
  }),
  {
    ...testsMade,
    id: 'tests-made',
    title: 'tests made',
    checkIds: checks.filter(asksForTest).map((check) => check.id),
  },
  ...Object.entries(logs).map(
    ([id, { title, checkId }]): Skill => ({
      id,
      title,
      counts: `no ${title}`,
      checkIds: [checkId],
      by: 'missing',
      factors: jobFactorNames,
      instruments: [],
    }),
  ),
];

/** A check as a skill of its own. */
export function checkSkill(check: Check): Skill {
  const group = shown[check.group];
  return {
    id: check.id,
    title: check.id,
    counts: 'this finding',
    checkIds: [check.id],
    by: 'flagged',
    factors: asksForTest(check) ? jobFactorNames : [...jobFactorNames, ...group.factors],
    instruments: gearOf([check.id]),
  };
}

const known = new WeakMap<FleetJobs, Map<string, Uint8Array>>();

/**
 * What happened to a skill in each job, worked out once for the same checks of the same fleet: found where any of its checks flagged it, clean where any judged it and none flagged it; else
 * missing where there is nothing to judge by, and not evaluated where what there is could not be judged.
 */
export function skillOutcomes(jobs: FleetJobs, { checkIds, by }: Pick<Skill, 'checkIds' | 'by'>): Uint8Array {
  const ofJobs = known.get(jobs) ?? new Map<string, Uint8Array>();
  known.set(jobs, ofJobs);
  const key = [by, ...checkIds].join(' ');
  const outcomes = ofJobs.get(key) ?? outcomesOf(jobs, checkIds, by);
  ofJobs.set(key, outcomes);
  return outcomes;
}

function outcomesOf({ outcomes, count }: FleetJobs, checkIds: readonly string[], by: Skill['by']): Uint8Array {
  const [low, high] = [0, 1].map((half) =>
    outcomes.checkIds.reduce(
      (bits, id, at) => (at >> 5 === half && checkIds.includes(id) ? bits | (1 << (at & 31)) : bits),
      0,
    ),
  );
  const any = (bits: Uint32Array, job: number): boolean => ((bits[2 * job] & low) | (bits[2 * job + 1] & high)) !== 0;
  const all = new Uint8Array(count);
  for (let job = 0; job < count; job += 1) {
    if (by === 'missing') all[job] = any(outcomes.missing, job) ? skillOutcome.found : skillOutcome.clean;
    else if (any(outcomes.found, job)) all[job] = skillOutcome.found;
    else if (any(outcomes.judged, job)) all[job] = skillOutcome.clean;
    else if (any(outcomes.missing, job)) all[job] = skillOutcome.missing;
  }
  return all;
}
