import type { ScaleEvidence } from '../../src/pages/job-evidence-data.ts';

const zeroedKg = 9.8;

/** A weigh-in of 0.3 kg over four minutes: zeroed before it, leaned on in its midst, a sudden step near its end. */
export function weighInSample(): ScaleEvidence {
  const elapsedS = Array.from({ length: 121 }, (_, index) => 2 * index);
  const flowed = (t: number) => Math.min(0.3, Math.max(0, 0.002 * (t - 60)) + (t >= 180 ? 0.06 : 0));
  const aside = (t: number) => (t > 100 && t < 110 ? -0.4 : 0) + (t >= 40 ? zeroedKg : 0);
  return {
    read: { elapsedS, drawnKg: elapsedS.map((t) => flowed(t) + aside(t)) },
    corrected: { elapsedS, drawnKg: elapsedS.map(flowed) },
    moves: [
      { startS: 38, endS: 40, shiftKg: -zeroedKg, asideKg: zeroedKg, isFlow: false },
      { startS: 100, endS: 110, shiftKg: 0, asideKg: 0.4, isFlow: false },
      { startS: 178, endS: 180, shiftKg: -0.06, asideKg: 0.06, isFlow: true },
    ],
    flow: {
      startS: 60,
      endS: 180,
      kg: 0.3,
      lowKg: 0.29,
      highKg: 0.31,
      before: { startS: 0, endS: 60 },
      after: { startS: 180, endS: 240 },
    },
    beforeKg: zeroedKg,
    counted: { kg: 0.24, isScale: true },
  };
}
