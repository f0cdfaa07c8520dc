import { z } from 'zod';

/** How a cell reads as text and is kept in the store. */
export type ColumnKind = 'text' | 'number' | 'integer' | 'instant' | 'date' | 'flag' | 'choice';

/** What a column's schema says of itself, beside its type. */
export interface ColumnMeta {
  readonly kind: ColumnKind;
  readonly description: string;
  /** The unit of the suffix, spelled for people; absent where the number has none. */
  readonly unit?: string;
  /** The range of a number outside which it is certainly wrong, ends included. */
  readonly min?: number;
  readonly max?: number;
  /** The words of a choice. */
  readonly words?: readonly string[];
  /** True where the word `over` may stand for a number: above the gauge's range, kept in the store as +infinity. */
  readonly over?: true;
}

const registry = z.registry<ColumnMeta>();

function column<Schema extends z.ZodType>(schema: Schema, meta: ColumnMeta): Schema {
  const description = meta.unit ? `${meta.description} [${meta.unit}]` : meta.description;
  const described = schema.meta({ description });
  registry.add(described, meta);
  return described;
}

/** The metadata of a column's schema, looked up through `.optional()`. */
export function columnMeta(schema: z.ZodType): ColumnMeta {
  const inner = schema instanceof z.ZodOptional ? (schema.unwrap() as z.ZodType) : schema;
  const meta = registry.get(inner);
  if (meta === undefined) throw new TypeError('column without metadata');
  return meta;
}

/** A name or free text; never empty. */
export const text = (description: string) => column(z.string().min(1).max(10_000), { kind: 'text', description });

/** A key of this or another table. */
export const identifier = (description: string) => column(z.string().min(1).max(500), { kind: 'text', description });

/** One of a fixed set of words. */
export const choice = <const Words extends readonly [string, ...string[]]>(words: Words, description: string) =>
  column(z.enum(words), { kind: 'choice', description, words });

/** A point in time, ISO 8601 with an offset. */
export const instant = (description: string) =>
  column(z.iso.datetime({ offset: true, local: false }), { kind: 'instant', description });

/** A calendar day, ISO 8601. */
export const date = (description: string) => column(z.iso.date(), { kind: 'date', description });

/** True or false. */
export const flag = (description: string) => column(z.boolean(), { kind: 'flag', description });

/** A whole number from `min` to `max`. */
export const integer = (description: string, min: number, max: number) =>
  column(z.number().int().min(min).max(max), { kind: 'integer', description, min, max });

/** A finite number in `unit`, and the range outside which it is certainly wrong. */
export const quantity = (unit: string, description: string, min: number, max: number) =>
  column(z.number().min(min).max(max), { kind: 'number', description, unit, min, max });

/** A finite number without a unit. */
export const ratio = (description: string, min: number, max: number) =>
  column(z.number().min(min).max(max), { kind: 'number', description, min, max });

/** A quantity for which the source may say `over`: above the gauge's range. */
export const overQuantity = (unit: string, description: string, min: number, max: number) =>
  column(z.union([z.number().min(min).max(max), z.literal('over')]), {
    kind: 'number',
    description,
    unit,
    min,
    max,
    over: true,
  });
