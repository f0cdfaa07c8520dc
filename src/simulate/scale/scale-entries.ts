/** What a technician reads off the scale at the beginning and end of a part of the charge [kg]. */
export interface ScaleEntry {
  readonly startKg: number;
  readonly endKg: number;
  /** 0 for the first cylinder, 1 for the one that it is changed for. */
  readonly cylinder: 0 | 1;
}

export interface ScaleEntriesOptions {
  readonly flowFromS: number;
  readonly flowToS: number;
  readonly swap: { readonly fromS: number; readonly toS: number } | undefined;
  readonly zerosS: readonly number[];
  /** What the display rests at [kg]. */
  readonly readKg: (atS: number) => number;
}

/** The readings off the scale: anew for another cylinder, and where it is set to 0 in mid-charge. */
export function scaleEntries({ flowFromS, flowToS, swap, zerosS, readKg }: ScaleEntriesOptions): ScaleEntry[] {
  const inChange = (atS: number) => swap !== undefined && atS >= swap.fromS && atS <= swap.toS;
  const breaks = zerosS
    .filter((atS) => atS > flowFromS && !inChange(atS))
    .map((atS) => ({ beforeS: atS - 1e-6, afterS: atS }));
  if (swap !== undefined) breaks.push({ beforeS: swap.fromS, afterS: swap.toS });
  breaks.sort((a, b) => a.beforeS - b.beforeS);
  const entries: ScaleEntry[] = [];
  let startKg = readKg(flowFromS);
  let cylinder: 0 | 1 = 0;
  for (const { beforeS, afterS } of breaks) {
    entries.push({ startKg, endKg: readKg(beforeS), cylinder });
    startKg = readKg(afterS);
    if (beforeS === swap?.fromS) cylinder = 1;
  }
  entries.push({ startKg, endKg: readKg(flowToS), cylinder });
  return entries;
}
