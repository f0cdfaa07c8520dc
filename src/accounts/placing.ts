/** A cylinder set on a scale twice, with its valve and hose: standard uncertainty [kg]. Common practice, no source. */
export const placingKg = 0.02;
