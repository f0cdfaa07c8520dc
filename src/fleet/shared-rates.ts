import type { FleetJobs } from './fleet-jobs.ts';
import { type Skill, skills } from './skill.ts';
import { type SkillRates, skillRates, type SkillRatesOptions } from './skill-rates.ts';
import { type AllStandingOut, standingOut } from './standing-out.ts';
import { type JudgedSkill, judgedSkill } from './training-results.ts';

/** Rates of the skills of one fleet and what follows from them, each worked out when it is first asked for, and once. */
export class SharedRates {
  readonly #jobs: FleetJobs;
  readonly #options: SkillRatesOptions;
  readonly #rates = new Map<string, SkillRates>();
  readonly #judged = new Map<string, JudgedSkill>();
  #standing: AllStandingOut | undefined;

  constructor(jobs: FleetJobs, options: SkillRatesOptions) {
    this.#jobs = jobs;
    this.#options = options;
  }

  /** Rates of a skill, or of a check, which are not kept: those of all checks would take as much memory as all else. */
  of(skill: Skill): SkillRates {
    const found = this.#rates.get(skill.id) ?? skillRates(this.#jobs, skill, this.#options);
    if (skills.includes(skill)) this.#rates.set(skill.id, found);
    return found;
  }

  /** Rates of every skill, in the order of the work. */
  all(): readonly SkillRates[] {
    return skills.map((skill) => this.of(skill));
  }

  /** Who stands out in any of them. */
  standingOut(): AllStandingOut {
    this.#standing ??= standingOut(this.#jobs, this.all());
    return this.#standing;
  }

  /** A skill that trainings are about, judged job by job. */
  judged(skill: Skill): JudgedSkill {
    const found =
      this.#judged.get(skill.id) ?? judgedSkill(this.#jobs, skill, skills.includes(skill) ? this.of(skill) : undefined);
    this.#judged.set(skill.id, found);
    return found;
  }
}
