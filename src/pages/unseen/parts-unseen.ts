import { outdoorPart } from '../../facts/tested-volume.ts';
import type { UnseenMaterial } from './unseen-words.ts';

/** The outdoor unit, where it stayed shut on its charge or is taken to have; otherwise empty. */
export function outdoorUnseen({ job }: UnseenMaterial): string {
  if (job === undefined || outdoorPart(job) !== 'shut') return '';
  return job.charge_basis === undefined
    ? 'the outdoor unit, taken to have been shut on its charge'
    : 'the outdoor unit, shut on its charge';
}

/** What of the system was no part of a test. */
export function partsUnseen(material: UnseenMaterial): string {
  const outdoor = outdoorUnseen(material);
  return outdoor === '' ? 'parts behind a shut valve' : `${outdoor}, and other parts behind a shut valve`;
}
