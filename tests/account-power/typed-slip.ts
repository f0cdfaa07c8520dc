import type { Random } from '../../src/numerics/random.ts';

export type TypedSlip = 'digits-swapped' | 'digit-wrong' | 'point-moved';

/** A figure as somebody mistypes it; null where that slip makes no other figure of it. */
export function typedSlip(random: Random, kg: number, stepKg: number, how: TypedSlip): number | null {
  const written = kg.toFixed(stepKg < 0.01 ? 3 : 2);
  const places = Array.from(written).flatMap((sign, at) => (sign >= '0' && sign <= '9' ? [at] : []));
  const slipped = (): string => {
    const at = random.integer(0, places.length - 1);
    if (how === 'digit-wrong')
      return `${written.slice(0, places[at])}${random.integer(0, 9)}${written.slice(places[at] + 1)}`;
    const signs = Array.from(written);
    const [one, next] = [places[Math.min(at, places.length - 2)], places[Math.min(at, places.length - 2) + 1]];
    [signs[one], signs[next]] = [signs[next], signs[one]];
    return signs.join('');
  };
  const value = how === 'point-moved' ? Number((kg * random.choice([10, 0.1])).toFixed(3)) : Number(slipped());
  return value === kg ? null : value;
}
