/** Refrigerants that are or hold a class I or II ozone-depleting substance of the US Clean Air Act. Source: `40-cfr-82-subpart-a`, from memory. */
const ozoneDepleting: ReadonlySet<string> = new Set([
  'R-11',
  'R-12',
  'R-13',
  'R-22',
  'R-113',
  'R-114',
  'R-115',
  'R-123',
  'R-124',
  'R-141b',
  'R-142b',
  'R-401A',
  'R-401B',
  'R-402A',
  'R-402B',
  'R-403B',
  'R-406A',
  'R-408A',
  'R-409A',
  'R-414B',
  'R-416A',
  'R-500',
  'R-502',
  'R-503',
]);

/**
 * Whether a refrigerant is or holds an ozone-depleting substance.
 *
 * @param refrigerant ASHRAE 34 designation
 * @example isOzoneDepleting('R-22') // true
 */
export function isOzoneDepleting(refrigerant: string): boolean {
  return ozoneDepleting.has(refrigerant);
}

/** Their designations. */
export const ozoneDepletingRefrigerants: readonly string[] = [...ozoneDepleting];
