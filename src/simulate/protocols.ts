/** What a job record asks of the evacuation. */
export interface Protocol {
  readonly targetPa: number;
  readonly holdS: number;
  readonly riseS: number;
  readonly limitPa: number;
  readonly limitKind: 'level' | 'rise';
}

const MICRON_PA = 0.133322368;

/** Protocols that the shop's job records name; they differ from job to job. */
export const protocols = {
  /** 500 µm, then a rise of at most 300 µm in 5 min. Source: `rise-protocol-ra3`; the hold is common practice, no source. */
  rise: { targetPa: 500 * MICRON_PA, holdS: 300, riseS: 300, limitPa: 300 * MICRON_PA, limitKind: 'rise' },
  /** 250 µm, then at most 1000 µm after 10 min: common practice, no source. */
  deep: { targetPa: 250 * MICRON_PA, holdS: 600, riseS: 600, limitPa: 1000 * MICRON_PA, limitKind: 'level' },
  /** 250 µm, then at most 500 µm after 10 min: common practice, no source. */
  strict: { targetPa: 250 * MICRON_PA, holdS: 300, riseS: 600, limitPa: 500 * MICRON_PA, limitKind: 'level' },
} as const satisfies Record<string, Protocol>;
