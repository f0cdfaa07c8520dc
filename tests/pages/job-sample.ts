import type { FittedRise } from '../../src/charts/fitted-rise.ts';
import type { JobEvidence, PressureEvidence } from '../../src/pages/job-evidence-data.ts';
import { runSample } from './run-sample.ts';
import { weighInSample } from './weigh-in-sample.ts';

/** A seeded generator (a plain linear congruential one: looks, not statistics, depend on it). */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1664525 + 1013904223) % 2 ** 32;
    return state / 2 ** 32;
  };
}

/** Pull-down, hold, an isolation that rises, over 80 minutes. */
function recording(
  random: () => number,
  risePa: number,
): Pick<JobEvidence, 'trace' | 'phases' | 'limits' | 'isolation' | 'fitted' | 'stall' | 'valveOff'> {
  const elapsedS = Array.from({ length: 480 }, (_, index) => index * 10);
  const over = elapsedS.map((t) => t < 240);
  const vacuumPa = elapsedS.map((t) => {
    if (t < 240 || (t > 1500 && t < 1560)) return null;
    const pulled = 38 + 26000 * Math.exp(-t / 260) + 600 * Math.exp(-t / 900);
    const isolated = t <= 3900 ? 0 : risePa * (1 - Math.exp(-(t - 3900) / 500));
    return (t <= 3900 ? pulled : 47 + isolated) * (1 + 0.01 * (random() - 0.5));
  });
  return {
    trace: { elapsedS, vacuumPa, over },
    phases: [
      { phase: 'pull-down', startS: 0, endS: 3000 },
      { phase: 'hold', startS: 3000, endS: 3900 },
      { phase: 'isolation', startS: 3900, endS: 4790 },
    ],
    limits: [
      { label: 'target', pa: 66.661184, of: 'pull-down' },
      { label: 'limit after 10 min', pa: 133.322368, of: 'rise', countsAtS: 600 },
    ],
    isolation: { phase: 'isolation', startS: 3900, endS: 4790 },
    fitted: risenAndLevelled(risePa),
    stall: { startS: 700, endS: 1000, pa: 900 },
    valveOff: { lowS: 3880, highS: 3930 },
  };
}

/** What would be fitted to such a rise: no leak, and a level that it heads for. */
function risenAndLevelled(risePa: number): FittedRise {
  const sinceS = Array.from({ length: 31 }, (_, index) => (890 * index ** 2) / 900);
  return {
    sinceS,
    fittedPa: sinceS.map((since) => 47 + risePa * (1 - Math.exp(-since / 500))),
    leakPaPerS: 0.01,
    leakLowPaPerS: 0,
    leakHighPaPerS: 0.05,
    plateau: { pa: 47 + risePa, lowPa: 44 + risePa, highPa: 52 + risePa },
  };
}

const psiPa = 6894.757;
const atmospherePa = 101_325;
const absolute = (psig: number) => atmospherePa + psig * psiPa;

/** A pressure test of an hour at 450 psig after a stage at 150, in drifting sun, that loses 2 psi. */
function standingTest(random: () => number): PressureEvidence {
  const elapsedS = Array.from({ length: 280 }, (_, index) => index * 15);
  const sun = (t: number) => 8 * Math.sin(t / 900);
  const psig = (t: number) => {
    if (t < 60) return 0;
    if (t < 360) return 150;
    if (t < 390) return 150 + 10 * (t - 360);
    if (t > 3990) return Math.max(0, 448 - 6 * (t - 3990));
    return 450 + 4 * Math.exp(-(t - 390) / 60) + sun(t) - sun(690) - (2 * (t - 690)) / 3300;
  };
  const means = Array.from({ length: 34 }, (_, index) => 690 + 100 * index);
  return {
    trace: { elapsedS, testPa: elapsedS.map((t) => absolute(Math.round(psig(t) + 0.4 * (random() - 0.5)))) },
    atmospherePa,
    highestPa: absolute(454),
    holds: [
      { startS: 60, endS: 360 },
      { startS: 390, endS: 3990 },
    ],
    judged: { startS: 390, settledS: 690, endS: 3990 },
    line: { heldK: 294, endK: 290, coldestK: 288, warmestK: 297 },
    corrected: {
      elapsedS: means,
      expectedPa: means.map((t) => absolute(450 + sun(t) - sun(690))),
      besidePa: means.map((t) => (psiPa * (-2 * (t - 690))) / 3300),
    },
    followingRatio: 0.7,
    drop: { pa: 2 * psiPa, lowPa: 0.9 * psiPa, highPa: 3.1 * psiPa },
    limits: [
      { label: 'target', pa: absolute(450) },
      { label: 'high side rated', pa: absolute(550) },
    ],
    allowedDropPa: 0,
  };
}

/**
 * Made-up jobs of a made-up shop: one with every recording there is, one with a vacuum alone, one without any.
 */
export function sampleJobs(): [JobEvidence, JobEvidence, JobEvidence] {
  const random = generator(20260301);
  return [
    {
      ...job('J-20931', random, 210, true),
      pressureTest: standingTest(random),
      scale: weighInSample(),
      run: runSample(),
    },
    job('J-20917', random, 120, false),
    noTrace(),
  ];
}

function job(jobId: string, random: () => number, risePa: number, fail: boolean): JobEvidence {
  return {
    jobId,
    startedAt: '2026-03-18T09:40:00-05:00',
    technician: 'Cy Marsh',
    crewId: 'Harbour',
    systemId: 'S-4410',
    siteId: 'P-118',
    refrigerant: 'R-454B',
    workType: 'install',
    contradiction: '',
    story: [
      'It took 40 min to pull down to 500 µm, and the lowest was 285 µm. It was valved off at 353 µm and watched for 14 min 50 s.',
      'A leak of less than 1.20 µm/min would not have shown.',
    ],
    findings: [
      {
        checkId: 'rise-over-limit',
        question: 'Did the rise after isolation stay within its limit?',
        outcome: fail ? 'fail' : 'suspect',
        text: `The pressure rose from 353 µm to ${fail ? '1 660' : '1 100'} µm in 14 min 50 s; the limit is 1 000 µm.`,
        basis: 'Limit: common practice, no source.',
        teach:
          'Look at flare nuts and valve caps first, then repeat the isolation with the pump valved off at the core tool.',
        unseen: 'what the rise was made of: its size tells no leak from moisture or outgassing.',
      },
      {
        checkId: 'wet',
        question: 'Does the rise level off as water or outgassing does?',
        outcome: 'suspect',
        text: `The rise levels off near ${fail ? '1 900' : '1 200'} µm: moisture or outgassing; nothing tells them apart here.`,
        basis: 'Limit: common practice, no source.',
        teach:
          'Sweep with dry nitrogen and pull again; if it levels off at the same height, suspect oil giving off gas.',
        unseen: 'how much water it is, and where.',
      },
      {
        checkId: 'hold-short',
        question: 'Was the vacuum held as long as asked for?',
        outcome: 'pass',
        text: 'Held 15 min at or below 500 µm; 15 min asked for.',
        basis: 'Limit: common practice, no source.',
        teach: '',
        unseen: 'what walls and oil went on giving off: the rise after valve-off tells that.',
      },
      {
        checkId: 'subcooling-off',
        question: 'Is the subcooling near its target?',
        outcome: 'not-evaluated',
        text: 'No steady run was recorded.',
        basis: 'Limit: common practice, no source.',
        teach: '',
        unseen: '',
      },
      {
        checkId: 'superheat-off',
        question: 'Is the superheat near its target?',
        outcome: 'not-evaluated',
        text: 'No steady run was recorded.',
        basis: '',
        teach: '',
        unseen: '',
      },
      {
        checkId: 'no-pressure-test',
        question: 'Was a nitrogen pressure test recorded?',
        outcome: 'missing',
        text: 'No pressure test is in the recording.',
        basis: 'Limit: common practice, no source.',
        teach: 'Log the standing test as well.',
        unseen: '',
      },
    ],
    pressureTest: null,
    scale: null,
    run: null,
    shared: null,
    ...recording(random, risePa),
  };
}

function noTrace(): JobEvidence {
  return {
    jobId: 'J-20899',
    startedAt: '2026-03-16T13:05:00-05:00',
    technician: 'Ida Stone',
    crewId: null,
    systemId: null,
    siteId: null,
    refrigerant: null,
    workType: null,
    contradiction: '',
    story: ['No vacuum log came with this job.'],
    findings: [
      {
        checkId: 'charge-off-target',
        question: 'Is the charge what this line set needs?',
        outcome: 'suspect',
        text: 'Charged 4 lb 2.0 oz where 4 lb 13.0 oz was due: 14 % under, as if the line length had been ignored.',
        basis: 'Limit: common practice, no source.',
        teach: 'Measure the line set; weigh in what the maker states for each foot beyond the covered length.',
        unseen: 'the charge to better than ± 0.6 oz, by scale, hoses and lengths.',
      },
    ],
    pressureTest: null,
    trace: null,
    phases: [],
    limits: [],
    isolation: null,
    fitted: null,
    stall: null,
    valveOff: null,
    scale: null,
    run: null,
    shared: null,
  };
}
