import { RiskModel } from '../../src/fleet/callbacks/callback-risk.ts';
import { fitWithinPeople } from '../../src/fleet/callbacks/forerunners.ts';
import { choosePredictors } from '../../src/fleet/callbacks/predictors.ts';
import { coachingTopics } from '../../src/fleet/coaching/coaching-topics.ts';
import { savedCallbacks } from '../../src/fleet/coaching/saved-callbacks.ts';
import { jobsByUnit } from '../../src/fleet/jobs-by-unit.ts';
import { skillOutcome, skillOutcomes, skills } from '../../src/fleet/skill.ts';
import { standingOut } from '../../src/fleet/standing-out.ts';
import { skillRates } from '../../src/fleet/skill-rates.ts';
import { type Claim, claim } from '../truth/claim.ts';
import { drawnFleet } from '../fleet-power/drawn-fleet.ts';
import { type DrawnCourses, horizonDays, watchedJobs } from './drawn-callbacks.ts';
import { crew, drawn, hazard, type Plan } from './drawn-plans.ts';

/** The person who differs, and in what. */
const who = 4;
const evacuation = skills.find(({ id }) => id === 'evacuation') ?? skills[0];
const ratio = 3;
const isFoundMore = 4;

/** Fleets of which somebody’s sheet promises callbacks: what was to be saved, and what it says. */
export function savingClaims(seed: number, runs: number): Claim[] {
  const fleet = { ...crew, jobsEach: 150, base: 0.2, skills: ['evacuation', 'rise', 'charge'] };
  const alike: Plan = { fleet, hazard: 1.5 * hazard, ratios: { evacuation: ratio } };
  const kinds: readonly [string, Plan][] = [
    ['one person with four times the odds', { ...alike, fleet: { ...fleet, odds: fourfold } }],
    ['people alike', alike],
    [
      'people differ in findings and in callbacks, which have nothing to do with each other',
      { ...alike, fleet: { ...fleet, spread: 0.8 }, ratios: {}, frailty: 0.7 },
    ],
  ];
  return kinds.flatMap(([kind, plan], at) => {
    const sheets = drawn(seed + 1000 * at, runs, plan).map(({ number, fleet: one }) => ({
      number,
      saved: savedOf(one),
      truth: trueSaving(one, plan, 100_000 * (seed + 1000 * at) + number),
    }));
    const plans = (number: number) => ({ seed, number, kind });
    if (at > 0)
      return [
        claim(
          `${kind}: a sheet surely promises callbacks though none would be saved`,
          sheets.map(({ number, saved }) => ({
            plan: plans(number),
            value: saved !== null && saved.low > 0,
            badness: saved !== null && saved.low > 0 ? 1 : 0,
            says: `${saved?.low.toFixed(1)} to ${saved?.high.toFixed(1)}`,
          })),
          { most: 0.05 },
        ),
      ];
    const told = sheets.flatMap(({ number, saved, truth }) => (saved === null ? [] : [{ number, saved, truth }]));
    return [
      claim(
        `${kind}: what a sheet says that would be saved, its interval holds the truth`,
        told.map(({ number, saved, truth }) => ({
          plan: plans(number),
          value: saved.low <= truth && truth <= saved.high,
          badness: saved.low <= truth && truth <= saved.high ? 0 : 1,
          says: `${saved.low.toFixed(1)} to ${saved.high.toFixed(1)}, true ${truth.toFixed(1)}`,
        })),
      ),
      claim(
        `${kind}: it is sure that some would be`,
        told.map(({ number, saved }) => ({ plan: plans(number), value: saved.low > 0, badness: 0, says: '' })),
      ),
    ];
  });
}

function fourfold({ technician }: { readonly technician: number }, skillId: string): number {
  return technician === who && skillId === evacuation.id ? isFoundMore : 1;
}

/** What the sheet of one person promises; null where it promises nothing. */
function savedOf({ jobs, ...courses }: DrawnCourses) {
  const rates = skillRates(jobs, evacuation, { withInstruments: false });
  const { units } = standingOut(jobs, [rates]);
  const [topic] = coachingTopics(jobs, [rates], units, 'technician', who);
  if (topic === undefined || topic.sureness === 'may-be-chance') return null;
  const followed = watchedJobs({ jobs, ...courses });
  const callbacks = followed.events.reduce((sum, event) => sum + event, 0);
  const { chosen } = choosePredictors(jobs, followed, callbacks);
  const [risk, within] = [RiskModel.fit(jobs, followed, chosen), fitWithinPeople(jobs, followed, chosen)];
  if (risk === undefined || within === undefined) return null;
  const own = jobsByUnit(jobs.units.technician)[who];
  const found = Array.from(own).filter((job) => rates.outcomes[job] === skillOutcome.found);
  return savedCallbacks(jobs, { risk, within }, evacuation, { own, found, believed: topic.believed }, horizonDays);
}

/** Callbacks a year that would not come, if the same jobs had gone as others’ do: the same fleet is drawn without what sets the person apart. */
function trueSaving({ jobs, hazards }: DrawnCourses, plan: Plan, seed: number): number {
  if (plan.ratios?.[evacuation.id] === undefined || plan.fleet.odds === undefined) return 0;
  const { odds: _, ...others } = plan.fleet;
  const as = skillOutcomes(drawnFleet({ ...others, seed }), evacuation);
  const is = skillOutcomes(jobs, evacuation);
  const own = jobsByUnit(jobs.units.technician)[who];
  const saved = own.reduce((sum, job) => {
    if (is[job] !== skillOutcome.found || as[job] === skillOutcome.found) return sum;
    return sum + Math.exp(-hazards[job] / ratio) - Math.exp(-hazards[job]);
  }, 0);
  return (saved * 365.25) / (jobs.days[own[own.length - 1]] - jobs.days[own[0]] + 1);
}
