import { createHash } from 'node:crypto';
import { checks } from '../../checks/checks.ts';
import type { Policy } from '../../checks/policy.ts';

/** What findings rest on beside the facts, the policy's limits and the checks' own, and its digest. */
export function policyContent(policy: Policy): { readonly content: string; readonly digest: string } {
  const defaults = checks.map(({ id, limits }) => [
    id,
    Object.entries(limits).map(([name, spec]) => [name, spec.default]),
  ]);
  const content = JSON.stringify({ policy, defaults });
  return { content, digest: createHash('sha256').update(content).digest('hex') };
}
