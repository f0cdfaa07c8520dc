import { DryholdError } from '../errors.ts';
import type { Store } from '../store/store.ts';

/** The policy that judged last. */
export interface PolicyJudged {
  readonly id: string;
  readonly title: string;
}

/** The policy whose findings count: the one judged last, or the one asked for. */
export async function policyJudged(store: Store, asked?: string): Promise<PolicyJudged> {
  const rows = await store.rows<{ policy_id: string; content: string }>(
    'SELECT policy_id, content FROM policies ORDER BY judged_order DESC',
  );
  if (rows.length === 0) throw new DryholdError('not-judged', { path: store.folder });
  const row = asked === undefined ? rows[0] : rows.find((candidate) => candidate.policy_id === asked);
  if (row === undefined) {
    throw new DryholdError('bad-usage', {
      problem: `no findings by policy "${asked}"; there are ${rows.map((known) => known.policy_id).join(', ')}`,
    });
  }
  const { policy } = JSON.parse(row.content) as { policy: { title: string } };
  return { id: row.policy_id, title: policy.title };
}
