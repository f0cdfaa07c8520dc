import type { Check, Limits, LimitSpecs } from '../../checks/check.ts';
import { checks } from '../../checks/checks.ts';
import { type Policy, resolveLimits } from '../../checks/policy.ts';
import type { Facts } from '../../records/tables/facts.ts';
import type { Finding } from '../../records/tables/findings.ts';
import type { Job } from '../../records/tables/jobs.ts';

/** Makes findings of facts by one policy. */
export class JobFindings {
  readonly #policy: Policy;
  /** Each check, with its limits where no job's record has a say in them. */
  readonly #checks: readonly { readonly check: Check; readonly limits: Limits<LimitSpecs> | undefined }[];

  constructor(policy: Policy) {
    this.#policy = policy;
    this.#checks = checks.map((check) => {
      const isOfJob = Object.values(check.limits).some(({ recorded }) => recorded !== undefined);
      return { check, limits: isOfJob ? undefined : resolveLimits(check, policy, undefined) };
    });
  }

  /** One finding per check. */
  of(facts: Facts, job: Job | undefined): Finding[] {
    return this.#checks.map(({ check, limits }) => {
      const judgement = check.judge(facts, limits ?? resolveLimits(check, this.#policy, job));
      return {
        job_id: facts.job_id,
        check_id: check.id,
        outcome: judgement.outcome,
        message_id: judgement.message,
        value: judgement.value,
        limit_value: judgement.limit,
        unit: judgement.unit,
        evidence: JSON.stringify(judgement.evidence),
        policy_id: this.#policy.id,
      };
    });
  }
}
