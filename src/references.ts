/** A cited work. `basis` says how its figures reached us: seen in a source, or from memory (then it is never a cited limit). */
export interface Reference {
  readonly citation: string;
  readonly basis: 'source' | 'from memory';
}

/** Every cited work by key; a wrong key does not compile. Sorted by key. */
export const references = {
  '40-cfr-1065-644': {
    citation: '40 CFR 1065.644, Vacuum-decay leak rate, Eq. 1065.644-1',
    basis: 'source',
  },
  'ashrae-34': {
    citation: 'ANSI/ASHRAE Standard 34, Designation and Safety Classification of Refrigerants',
    basis: 'source',
  },
  'astm-b280': {
    citation: 'ASTM B280, Seamless Copper Tube for Air Conditioning and Refrigeration Field Service',
    basis: 'from memory',
  },
  'barlow-1972': {
    citation: 'Barlow, Bartholomew, Bremner, Brunk 1972, Statistical Inference under Order Restrictions',
    basis: 'from memory',
  },
  'benjamini-hochberg-1995': {
    citation: 'Benjamini, Hochberg 1995, Controlling the False Discovery Rate, J. R. Stat. Soc. B 57, 289–300',
    basis: 'from memory',
  },
  'blackman-vigna-2021': {
    citation: 'Blackman, Vigna 2021, Scrambled Linear Pseudorandom Number Generators, ACM Trans. Math. Softw. 47',
    basis: 'from memory',
  },
  'common-practice': { citation: 'common practice, no source', basis: 'from memory' },
  'iapws-r14-08': {
    citation: 'IAPWS R14-08(2011), Pressure along the Melting and Sublimation Curves of Ordinary Water Substance',
    basis: 'source',
  },
  'iapws-sr1-86': {
    citation:
      'Wagner, Pruss 1993, International Equations for the Saturation Properties of Ordinary Water Substance (IAPWS SR1-86)',
    basis: 'from memory',
  },
  'iso-2533': { citation: 'ISO 2533, Standard Atmosphere', basis: 'from memory' },
  'maker-line-set-table': {
    citation:
      'An equipment maker’s line-set table for R-410A: 0.60, 0.40, 0.27 oz/ft for liquid lines of 3/8, 5/16, 1/4 in',
    basis: 'source',
  },
  'newcombe-1998': {
    citation:
      'Newcombe 1998, Two-sided confidence intervals for the single proportion, Stat. Med. 17, 857–872, method 3',
    basis: 'from memory',
  },
  qartod: { citation: 'U.S. IOOS QARTOD manuals, quality flags for real-time sensor data', basis: 'source' },
  'rise-protocol-ra3': {
    citation:
      'California Title 24 Part 6, Residential Appendix RA3.2.3.1: at most 500 µm, then a rise of at most 300 µm in 5 min',
    basis: 'from memory',
  },
  'ufgs-refrigerant-piping': {
    citation: 'UFGS Refrigerant Piping (15182), 3.3.3 Evacuation Test: 300 µm; valve off; after 1 h at most 500 µm',
    basis: 'source',
  },
  'vacuum-conductance': {
    citation:
      'Vacuum textbooks, flow through tubes: viscous 135 d⁴p/L, molecular 12.1 d³/L, Knudsen all-regime (air, 20 °C, cm, mbar, L/s)',
    basis: 'source',
  },
  'vacuum-rate-of-rise': { citation: 'Vacuum know-how, pressure-rise method: Q = V Δp/Δt', basis: 'source' },
} as const satisfies Record<string, Reference>;

export type ReferenceKey = keyof typeof references;
