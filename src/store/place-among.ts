import { literal } from './quoted.ts';

/** Among so few words one is found faster in a list than by an enumeration. */
const fewWords = 16;

/**
 * The place of a text among words as SQL of a number, from 1, 0 for none: texts themselves would cost more than
 * everything else together.
 *
 * @param column an SQL identifier
 */
export function placeAmong(column: string, words: readonly string[]): string {
  if (words.length === 0) return '0::DOUBLE';
  const list = words.map(literal).join(', ');
  const place =
    words.length <= fewWords
      ? `list_position([${list}], ${column})`
      : `enum_code(TRY_CAST(${column} AS ENUM(${list}))) + 1`;
  return `coalesce(${place}, 0)::DOUBLE`;
}
