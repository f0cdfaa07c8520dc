import { readFileSync } from 'node:fs';
import { z } from 'zod';
import { DryholdError } from '../errors.ts';
import type { Job } from '../records/tables/jobs.ts';
import { type ReferenceKey, references } from '../references.ts';
import type { Check, Limit, Limits, LimitSpecs } from './check.ts';
import { checkNamed, checks } from './checks.ts';

const referenceKeys = Object.keys(references) as [ReferenceKey, ...ReferenceKey[]];

/** A policy file: a named, versioned set of limits, each with its source. */
export const policySchema = z
  .strictObject({
    $schema: z.string().optional(),
    id: z
      .string()
      .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/)
      .describe('Stands with every finding that the policy judged.'),
    title: z.string().min(1).describe('What people call it.'),
    version: z.number().int().min(1).describe('Grows whenever a limit changes.'),
    limits: z
      .record(
        z.string(),
        z.record(
          z.string(),
          z.strictObject({
            value: z.union([z.number(), z.string()]),
            source: z
              .enum(referenceKeys)
              .describe('A key of src/references.ts; common-practice where there is no source.'),
            unless_recorded: z
              .boolean()
              .default(false)
              .describe("True where the job's own record goes before this limit."),
          }),
        ),
      )
      .describe('Check id → limit → value. A limit that is not named keeps its default.'),
  })
  .meta({ title: 'dryhold policy', description: 'A named set of limits that jobs are judged by.' });

export type Policy = z.infer<typeof policySchema>;

/** The policy where none is named: the job's own targets and limits where recorded, common practice elsewhere. */
export const asRecorded: Policy = { id: 'as-recorded', title: 'As recorded on the job', version: 1, limits: {} };

/**
 * Reads and checks a policy file.
 *
 * @throws DryholdError `file-not-found`, `policy-invalid` with the place in the file
 */
export function readPolicy(path: string): Policy {
  let content: string;
  try {
    content = readFileSync(path, 'utf8');
  } catch (error) {
    throw new DryholdError('file-not-found', { path }, error);
  }
  let json: unknown;
  try {
    json = JSON.parse(content);
  } catch (error) {
    throw new DryholdError(
      'policy-invalid',
      { path, where: 'the whole file', problem: (error as Error).message.split('\n')[0] },
      error,
    );
  }
  const parsed = policySchema.safeParse(json);
  if (!parsed.success) {
    const issue = parsed.error.issues[0];
    throw new DryholdError('policy-invalid', {
      path,
      where: issue.path.join('.') || 'the top',
      problem: issue.message,
    });
  }
  checkLimits(path, parsed.data);
  return parsed.data;
}

function checkLimits(path: string, policy: Policy): void {
  for (const [checkId, limits] of Object.entries(policy.limits)) {
    const check = checkNamed(checkId);
    if (check === undefined) {
      const problem = `no check "${checkId}"; there are ${checks.map((known) => known.id).join(', ')}`;
      throw new DryholdError('policy-invalid', { path, where: `limits.${checkId}`, problem });
    }
    for (const [name, { value }] of Object.entries(limits)) {
      const where = `limits.${checkId}.${name}`;
      const spec = check.limits[name];
      if (spec === undefined) {
        throw new DryholdError('policy-invalid', {
          path,
          where,
          problem: `no such limit; there are ${Object.keys(check.limits).join(', ')}`,
        });
      }
      const judged = spec.schema.safeParse(value);
      if (!judged.success)
        throw new DryholdError('policy-invalid', { path, where, problem: judged.error.issues[0].message });
    }
  }
}

/** The limits of a check for one job: the policy's, the record's where the policy lets it speak, else the default. */
export function resolveLimits(check: Check, policy: Policy, job: Partial<Job> | undefined): Limits<LimitSpecs> {
  const resolved: Record<string, Limit> = {};
  for (const [name, spec] of Object.entries(check.limits)) {
    const set = policy.limits[check.id]?.[name];
    const recorded = spec.recorded === undefined ? undefined : job?.[spec.recorded];
    if (recorded !== undefined && (set === undefined || set.unless_recorded)) {
      resolved[name] = { value: recorded as number | string, source: 'record' };
    } else
      resolved[name] =
        set === undefined ? { value: spec.default, source: spec.source } : { value: set.value, source: set.source };
  }
  return resolved;
}
