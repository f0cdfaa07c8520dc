/** Tells of what a number is drawn, and of which whole number it depends: gives an expression from 0 to 1. */
export type Draw = (what: string, of: string) => string;

/** Draws that follow from the seed alone. */
export function drawsOf(seed: number): Draw {
  const salts = new Map<string, number>();
  return (what, of) => {
    const salt = salts.get(what) ?? salts.size;
    salts.set(what, salt);
    // One number is hashed at a time: a hash of several is no more than the exclusive or of theirs, and so are two draws.
    const base = BigInt(seed * 100 + salt) * 10n ** 11n;
    return `(hash(${base}::BIGINT + ${of}) / 18446744073709551616.0)`;
  };
}
