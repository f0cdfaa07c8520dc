import { z } from 'zod';
import type { Check } from './check.ts';
import { policySchema } from './policy.ts';

type JsonObject = Record<string, unknown>;

/**
 * The JSON Schema (2020-12) of policy files, with the limits of every check by name: an editor completes and checks them.
 *
 * @param checks the checks whose limits a policy may set
 * @example policyJsonSchema(checks) // { $schema: 'https://json-schema.org/draft/2020-12/schema', … }
 */
export function policyJsonSchema(checks: readonly Check[]): JsonObject {
  const whole = z.toJSONSchema(policySchema, { target: 'draft-2020-12', io: 'input' }) as JsonObject;
  const properties = whole.properties as JsonObject;
  const anyLimits = properties.limits as { description: string; additionalProperties: JsonObject };
  const anyLimit = anyLimits.additionalProperties.additionalProperties as JsonObject;
  const limits = Object.fromEntries(
    checks.map((check) => [
      check.id,
      {
        type: 'object',
        description: check.question,
        properties: Object.fromEntries(
          Object.entries(check.limits).map(([name, spec]) => [
            name,
            {
              ...anyLimit,
              description: spec.unit === undefined ? spec.description : `${spec.description} [${spec.unit}]`,
              properties: { ...(anyLimit.properties as JsonObject), value: valueSchema(spec.schema) },
            },
          ]),
        ),
        additionalProperties: false,
      },
    ]),
  );
  return {
    ...whole,
    properties: {
      ...properties,
      limits: { type: 'object', description: anyLimits.description, properties: limits, additionalProperties: false },
    },
  };
}

function valueSchema(schema: z.ZodType): JsonObject {
  const { $schema: _, ...value } = z.toJSONSchema(schema, { target: 'draft-2020-12', io: 'input' }) as JsonObject;
  return value;
}
