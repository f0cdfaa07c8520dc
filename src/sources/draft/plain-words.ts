/**
 * A name as words that can be compared: small letters without accents, capitals within a name and all signs as spaces.
 *
 * @example plainWords('SuctionPressure_psig') // 'suction pressure psig'
 */
export function plainWords(name: string): string {
  return name
    .replaceAll(/([\p{Ll}\d])(\p{Lu}\p{Ll})/gu, '$1 $2')
    .replaceAll(/(\p{Ll})(\p{Lu})/gu, '$1 $2')
    .normalize('NFD')
    .replaceAll(/\p{M}/gu, '')
    .toLowerCase()
    .replaceAll('ß', 'ss')
    .replaceAll(/[^\p{L}\d]+/gu, ' ')
    .trim();
}
