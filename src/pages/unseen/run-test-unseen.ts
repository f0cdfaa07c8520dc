import { durationText, temperatureChangeText, temperatureText } from '../../units/display.ts';
import type { UnseenByCheck, UnseenMaterial } from './unseen-words.ts';

/** What one run of a system could not have shown. */
export const runTestUnseen: UnseenByCheck = {
  'no-run-test': {
    passed: (material) => [weatherUnseen(material), 'what shows only after hours'],
    flagged: () => ['how it runs once it is steady'],
  },
  'superheat-off': {
    passed: (material) => [
      material.facts.metering_kind === 'valve' ? 'the charge: a valve keeps its superheat over a wide range of it' : '',
      spreadOf('superheat', material),
      weatherUnseen(material),
    ],
    flagged: (material) => ['whether charge, airflow or a restriction makes it so', weatherUnseen(material)],
  },
  'subcooling-off': {
    passed: (material) => [spreadOf('subcooling', material), weatherUnseen(material)],
    flagged: (material) => ['whether charge, air in it or a restriction makes it so', weatherUnseen(material)],
  },
  'run-pattern': {
    passed: (material) => [
      'a fault too slight to move these readings, or two that hide each other',
      weatherUnseen(material),
    ],
    flagged: (material) => ['two faults at once, or one that is none of the five looked for', weatherUnseen(material)],
  },
  'compressor-in-vacuum': {
    passed: () => ['a start while power and pressure were not both logged', 'a test of its windings in a vacuum'],
    flagged: () => ['what it did to the windings and the oil'],
  },
};

/** All is told from one stretch under one weather. */
function weatherUnseen({ facts, units }: UnseenMaterial): string {
  const { steady_start_s: startS, steady_end_s: endS, run_outdoor_k: outdoorK } = facts;
  const stretch = startS === undefined || endS === undefined ? '' : ` of ${durationText(endS - startS)}`;
  const at = outdoorK === undefined ? '' : ` at ${temperatureText(outdoorK, units)} outdoors`;
  return `other weather or load: it is one steady stretch${stretch}${at}`;
}

/** Half the interval of a figure; empty where there is none. */
function spreadOf(name: 'superheat' | 'subcooling', { facts, units }: UnseenMaterial): string {
  const [lowK, highK] = [facts[`${name}_low_k`], facts[`${name}_high_k`]];
  if (lowK === undefined || highK === undefined) return '';
  return `the ${name} to better than ± ${temperatureChangeText((highK - lowK) / 2, units)}`;
}
