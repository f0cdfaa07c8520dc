import type { UnseenMaterial } from './unseen-words.ts';

/** What the accuracy of the vacuum gauge leaves open; empty where it is not on record. */
export function accuracyUnseen({ facts: { gauge_accuracy_ratio: accuracy } }: UnseenMaterial): string {
  return accuracy === undefined || accuracy <= 0
    ? ''
    : `the pressure to better than the ± ${Number((100 * accuracy).toPrecision(2))} % of the gauge`;
}
