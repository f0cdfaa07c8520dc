import type { FleetJobs } from '../fleet-jobs.ts';
import { RiskModel } from './callback-risk.ts';
import type { FollowUps } from './follow-up.ts';
import { fitWithinPeople, type Forerunner, forerunners, type WithinPeople } from './forerunners.ts';
import { choosePredictors, type Predictors } from './predictors.ts';
import { fewestCallbacks } from './risk-record.ts';

/** What callbacks tell of the jobs of one fleet, each worked out when it is first asked for, and once. */
export class CallbackModels {
  readonly #jobs: FleetJobs;
  readonly #followed: FollowUps;
  readonly #callbacks: number;
  #predictors: Predictors | undefined;
  #risk: { readonly model: RiskModel | undefined } | undefined;
  #within: { readonly people: WithinPeople | undefined } | undefined;
  #forerunners: readonly Forerunner[] | undefined;

  constructor(jobs: FleetJobs, followed: FollowUps) {
    this.#jobs = jobs;
    this.#followed = followed;
    this.#callbacks = followed.events.reduce((sum, event) => sum + event, 0);
  }

  /** Whether callbacks are enough to say anything of what foretells them; the models are there only if they are. */
  get areEnough(): boolean {
    return this.#callbacks >= fewestCallbacks;
  }

  get predictors(): Predictors {
    this.#predictors ??= choosePredictors(this.#jobs, this.#followed, this.#callbacks);
    return this.#predictors;
  }

  /** The risk of each job; undefined where nothing can be told. */
  get risk(): RiskModel | undefined {
    this.#risk ??= {
      model: this.areEnough ? RiskModel.fit(this.#jobs, this.#followed, this.predictors.chosen) : undefined,
    };
    return this.#risk.model;
  }

  /** What findings do to it among the jobs of the same person; undefined where nothing can be told. */
  get within(): WithinPeople | undefined {
    this.#within ??= {
      people: this.areEnough ? fitWithinPeople(this.#jobs, this.#followed, this.predictors.chosen) : undefined,
    };
    return this.#within.people;
  }

  /** What foretells callbacks among the jobs of the same person; none where nothing can be told. */
  get forerunners(): readonly Forerunner[] {
    this.#forerunners ??= this.within === undefined ? [] : forerunners(this.within);
    return this.#forerunners;
  }
}
