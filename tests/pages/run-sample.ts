import type { SaturationPoint } from '../../src/charts/run-recording.ts';
import type { RunEvidence } from '../../src/pages/job-evidence-data.ts';

/** A run of 20 minutes after four at rest, steady over its last ten: superheat 6 K, subcooling 5 K. */
export function runSample(): RunEvidence {
  const elapsedS = Array.from({ length: 97 }, (_, index) => 15 * index);
  const towards = (restK: number, runK: number, lagS: number) =>
    elapsedS.map((t) => (t < 240 ? restK : runK + (restK - runK) * Math.exp(-(t - 240) / lagS)));
  return {
    trace: {
      elapsedS,
      dewK: towards(295, 279, 20),
      suctionLineK: towards(295, 285, 90),
      bubbleK: towards(295, 315, 60).map((k, index) => (index === 9 ? null : k)),
      liquidLineK: towards(295, 310, 90),
    },
    atmospherePa: 101_325,
    startS: 240,
    steady: { startS: 840, endS: 1440 },
    superheat: { k: 6, lowK: 5, highK: 7, saturationK: 279, lineK: 285 },
    subcooling: { k: 5, lowK: 3.8, highK: 6.2, saturationK: 315, lineK: 310 },
    isTwoPhase: false,
    means: {
      suctionPa: 920_000,
      dewK: 279,
      suctionLineK: 285,
      targetSuperheatK: null,
      liquidPa: 2_500_000,
      bubbleK: 315,
      liquidLineK: 310,
      targetSubcoolingK: 5.5,
      outdoorK: 305,
      indoorK: 297,
      indoorWetBulbK: null,
      splitK: 10,
      compressorW: 1840,
    },
    curve: curveSample(),
  };
}

/** A made curve that meets both of its pressures, by 5 K from −1 to 54 °C. */
function curveSample(): SaturationPoint[] {
  const pressurePa = (k: number, atPa: number, atK: number) => atPa * Math.exp(2420 * (1 / atK - 1 / k));
  return Array.from({ length: 12 }, (_, index) => {
    const temperatureK = 272 + 5 * index;
    return {
      temperatureK,
      dewPa: pressurePa(temperatureK, 920_000, 279),
      bubblePa: pressurePa(temperatureK, 2_500_000, 315),
    };
  });
}
