/** The invented shop: when it works and where. No real firm, place or person. */
export const shop = {
  name: 'Quillbrook Loft Air',
  /** First and last day of the year that is simulated. */
  firstDay: '2025-07-01',
  lastDay: '2026-06-30',
  /** The shop's clock: 6 hours behind UTC all year. */
  offsetMinutes: -360,
  /** Districts that jobs lie in, with their altitude [m]. */
  districts: [
    { name: 'mill-bank', altitudeM: 60 },
    { name: 'orchard-side', altitudeM: 240 },
    { name: 'high-meadow', altitudeM: 780 },
    { name: 'ridge-top', altitudeM: 1450 },
  ],
} as const;
