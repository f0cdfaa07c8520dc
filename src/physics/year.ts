/** A year as leak rates count it: 365.25 days [s]. */
export const YEAR_S = 31_557_600;
