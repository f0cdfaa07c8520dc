/**
 * A valve core left in while a system is evacuated, as a tube: bore and length [m].
 *
 * An assumption of this project: makers and the trade tell technicians to take cores out, but no published conductance
 * was found. It passes 0.14 L/s of air at a mean pressure of 500 µm, as 1.5 m of hose of 1/4 in does or a little more.
 */
export const valveCore = { boreM: 0.002, lengthM: 0.015 } as const;
