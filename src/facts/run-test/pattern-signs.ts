/** What the readings of a whole run may look like together. */
export const runPatterns = [
  'none',
  'low-charge',
  'overcharge',
  'restriction',
  'poor-airflow',
  'non-condensables',
] as const;

export type RunPattern = (typeof runPatterns)[number];

/** A reading that patterns move, as a difference of temperatures; pressure at rest as a ratio. */
export const runSigns = ['evaporating', 'condensing', 'superheat', 'subcooling', 'split', 'rest'] as const;

export type RunSign = (typeof runSigns)[number];

/** What each reading is called to people. */
export const signNames: Readonly<Record<RunSign, string>> = {
  evaporating: 'suction pressure',
  condensing: 'liquid pressure',
  superheat: 'superheat',
  subcooling: 'subcooling',
  split: 'air temperature split',
  rest: 'pressure at rest',
};

/** How usual each pattern is. Common practice, no source. */
export const usualPatterns: Readonly<Record<RunPattern, number>> = {
  none: 0.72,
  'low-charge': 0.09,
  overcharge: 0.07,
  restriction: 0.03,
  'poor-airflow': 0.06,
  'non-condensables': 0.03,
};

type Shifts = Readonly<Record<RunSign, number>>;

/**
 * By how much a pattern of usual size moves each reading [K], the pressure at rest as a ratio. `evaporating` is the return air
 * above the dew point (more where suction is low), `condensing` the bubble point above the outdoor air.
 *
 * Common practice, no source: tables of symptoms agree on the signs, hardly on the sizes.
 */
export const patternShifts: Readonly<Record<'fixed' | 'valve', Readonly<Record<RunPattern, Shifts>>>> = {
  valve: {
    none: { evaporating: 0, condensing: 0, superheat: 0, subcooling: 0, split: 0, rest: 0 },
    'low-charge': { evaporating: 2, condensing: -2, superheat: 2.5, subcooling: -4.5, split: -1, rest: 0 },
    overcharge: { evaporating: 0, condensing: 3, superheat: 0, subcooling: 5, split: 0, rest: 0 },
    restriction: { evaporating: 8, condensing: -3, superheat: 9, subcooling: 2, split: -3, rest: 0 },
    'poor-airflow': { evaporating: 3.5, condensing: -1, superheat: -0.5, subcooling: 0.5, split: 4, rest: 0 },
    'non-condensables': { evaporating: 0, condensing: 5, superheat: 0, subcooling: 5, split: 0, rest: 0.05 },
  },
  fixed: {
    none: { evaporating: 0, condensing: 0, superheat: 0, subcooling: 0, split: 0, rest: 0 },
    'low-charge': { evaporating: 3.5, condensing: -2.5, superheat: 7, subcooling: -4.5, split: -1.5, rest: 0 },
    overcharge: { evaporating: -1.5, condensing: 3.5, superheat: -5, subcooling: 5, split: -0.5, rest: 0 },
    restriction: { evaporating: 6, condensing: -2.5, superheat: 8, subcooling: 2, split: -3, rest: 0 },
    'poor-airflow': { evaporating: 3.5, condensing: -1, superheat: -5, subcooling: 0.5, split: 4, rest: 0 },
    'non-condensables': { evaporating: -1, condensing: 5, superheat: -2, subcooling: 4, split: 0, rest: 0.05 },
  },
};

/** What a system with nothing wrong shows, and how far such systems lie apart [K]. Common practice, no source. */
export const soundSigns: Readonly<Record<RunSign, { readonly usual: number; readonly spread: number }>> = {
  evaporating: { usual: 18.5, spread: 2.5 },
  condensing: { usual: 11, spread: 2.5 },
  // Beside their targets.
  superheat: { usual: 0, spread: 1.8 },
  subcooling: { usual: 0, spread: 1.3 },
  split: { usual: 10.5, spread: 1.7 },
  rest: { usual: 0, spread: 0.004 },
};

/** Superheat that a valve keeps, and subcooling where no target is on record [K], with what that leaves open. Common practice, no source. */
export const valveSuperheat = { usualK: 5.5, spreadK: 1.5 } as const;
export const usualSubcooling = { usualK: 5.5, spreadK: 2 } as const;
