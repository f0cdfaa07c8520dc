/** A cited work. `basis` says how its figures reached us: seen in a source, or from memory (then it is never a cited limit). */
export interface Reference {
  readonly citation: string;
  readonly basis: 'source' | 'from memory';
}

/** Every cited work by key; a wrong key does not compile. Sorted by key. */
export const references = {
  '40-cfr-1065-644': { citation: '40 CFR 1065.644, Vacuum-decay leak rate, Eq. 1065.644-1', basis: 'source' },
  '40-cfr-82-152': {
    citation: '40 CFR 82.152, definitions of leak rate, full charge and seasonal variance, as pages quote it',
    basis: 'source',
  },
  '40-cfr-82-157': {
    citation: '40 CFR 82.157, Appliance maintenance and leak repair, (a) to (c)',
    basis: 'source',
  },
  '40-cfr-82-subpart-a': {
    citation: '40 CFR 82 Subpart A, appendices A and B, controlled substances of both classes',
    basis: 'from memory',
  },
  '40-cfr-84-102': {
    citation: '40 CFR 84.102, definitions of leak rate, full charge and comfort cooling',
    basis: 'source',
  },
  '40-cfr-84-106': {
    citation: '40 CFR 84.106 and 84.108, Leak repair and automatic leak detection, as pages quote it',
    basis: 'source',
  },
  '40-cfr-84-64': {
    citation:
      '40 CFR 84.64(b) and 40 CFR 84 Appendix A, global warming potentials of substitutes, regulated substances and blends',
    basis: 'source',
  },
  'abramowitz-stegun': {
    citation: 'Abramowitz, Stegun, Handbook of Mathematical Functions, 26.2.17',
    basis: 'from memory',
  },
  'ashrae-15-1994': {
    citation:
      'ANSI/ASHRAE 15-1994 with its emergency action, 10.1.2: test with dry nitrogen or another nonflammable, nonreactive dried gas, never with oxygen or air; a regulator or pressure limiter, a relief device and a gauge on its outlet',
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
  'bayesian-data-analysis': {
    citation: 'Gelman, Carlin, Stern, Rubin, Bayesian Data Analysis, chapter 5 and table 5.1 (rat tumours)',
    basis: 'from memory',
  },
  'bell-2022': {
    citation:
      'Bell 2022, Mixture Models for Refrigerants R-1234yf/134a, R-1234yf/1234ze(E), and R-134a/1234ze(E) and Interim Models, J. Phys. Chem. Ref. Data 51, 013103',
    basis: 'source',
  },
  'bell-2023': {
    citation:
      'Bell 2023, Mixture Model for Refrigerant Pairs R-32/1234yf, R-32/1234ze(E), R-1234ze(E)/227ea, R-1234yf/152a, and R-125/1234yf, J. Phys. Chem. Ref. Data 52, 013101',
    basis: 'source',
  },
  'bell-2025': {
    citation:
      'Bell 2025, Modeling Mixtures Containing Refrigerants: Updated Interaction Parameters, J. Chem. Eng. Data, doi 10.1021/acs.jced.4c00699',
    basis: 'source',
  },
  'bell-lemmon-2016': {
    citation:
      'Bell, Lemmon 2016, Automatic Fitting of Binary Interaction Parameters for Multi-fluid Helmholtz-Energy-Explicit Mixture Models, J. Chem. Eng. Data 61, doi 10.1021/acs.jced.6b00257',
    basis: 'source',
  },
  'benjamini-hochberg-1995': {
    citation: 'Benjamini, Hochberg 1995, Controlling the False Discovery Rate, J. R. Stat. Soc. B 57, 289–300',
    basis: 'from memory',
  },
  'blackman-vigna-2021': {
    citation: 'Blackman, Vigna 2021, Scrambled Linear Pseudorandom Number Generators, ACM Trans. Math. Softw. 47',
    basis: 'from memory',
  },
  'bland-altman-1994': {
    citation: 'Bland, Altman 1994, Regression Towards the Mean, BMJ 308, 1499',
    basis: 'from memory',
  },
  'bliss-1935': {
    citation:
      'Bliss 1935, The Calculation of the Dosage-Mortality Curve, Ann. Appl. Biol. 22, 134–167, as Dobson has it',
    basis: 'from memory',
  },
  'breslow-clayton-1993': {
    citation:
      'Breslow, Clayton 1993, Approximate Inference in Generalized Linear Mixed Models, J. Am. Stat. Assoc. 88, 9–25',
    basis: 'from memory',
  },
  'breslow-day-1987': {
    citation:
      'Breslow, Day 1987, Statistical Methods in Cancer Research, vol. II, The Design and Analysis of Cohort Studies, p. 69 (Byar’s approximation)',
    basis: 'from memory',
  },
  'brown-cai-dasgupta-2001': {
    citation: 'Brown, Cai, DasGupta 2001, Interval Estimation for a Binomial Proportion, Stat. Sci. 16, 101–133',
    basis: 'from memory',
  },
  'chandrupatla-1997': {
    citation:
      'Chandrupatla 1997, A New Hybrid Quadratic/Bisection Algorithm for Finding a Zero without Using Derivatives (title shortened), Adv. Eng. Softw. 28, 145–149',
    basis: 'from memory',
  },
  'charging-field-practice': {
    citation:
      'A trade page: target superheat of a fixed orifice is (3 × indoor wet bulb − 80 − outdoor dry bulb)/2 in °F',
    basis: 'source',
  },
  'chicago-municipal-code': {
    citation:
      'Chicago Municipal Code, archived text with its amendment of 2012, tests of refrigeration systems: pressure held for 1 h with no detectable change (old practice)',
    basis: 'source',
  },
  'codata-2018': {
    citation: 'CODATA 2018, Recommended Values of the Fundamental Physical Constants: R = 8.314462618 J/(mol K)',
    basis: 'from memory',
  },
  'common-practice': { citation: 'common practice, no source', basis: 'from memory' },
  'cox-1972': {
    citation: 'Cox 1972, Regression Models and Life-Tables, J. R. Stat. Soc. B 34, 187–220',
    basis: 'from memory',
  },
  'dersimonian-laird-1986': {
    citation: 'DerSimonian, Laird 1986, Meta-analysis in Clinical Trials, Controlled Clinical Trials 7, 177–188',
    basis: 'from memory',
  },
  'distributor-evacuation-guide': {
    citation:
      'A distributor’s help article for systems up to 5 tons: at most 250 µm; after 10 min at most 1000 µm and steady (trade practice, no standard)',
    basis: 'source',
  },
  dlmf: { citation: 'NIST Digital Library of Mathematical Functions, chapters 5 and 8', basis: 'from memory' },
  'efron-1977': {
    citation: 'Efron 1977, The Efficiency of Cox’s Likelihood for Censored Data, J. Am. Stat. Assoc. 72, 557–565',
    basis: 'from memory',
  },
  'efron-morris-1977': {
    citation: 'Efron, Morris 1977, Stein’s Paradox in Statistics, Scientific American 236 (5), 119–127',
    basis: 'from memory',
  },
  'evacuation-field-guide': {
    citation:
      'A field guide on the web: at most 500 µm, and not over 1000 µm after isolation (trade practice, no standard)',
    basis: 'source',
  },
  'eu-1005-2009': {
    citation: 'Regulation (EC) No 1005/2009 on substances that deplete the ozone layer, Article 23',
    basis: 'source',
  },
  'eu-2024-573': {
    citation:
      'Regulation (EU) 2024/573 on fluorinated greenhouse gases, Articles 4 to 7; most figures of it from memory',
    basis: 'from memory',
  },
  'freireich-1963': {
    citation:
      'Freireich et al. 1963, The Effect of 6-Mercaptopurine on the Duration of Steroid-Induced Remissions in Acute Leukemia, Blood 21, 699–716',
    basis: 'from memory',
  },
  'griffiths-1973': {
    citation:
      'Griffiths 1973, Maximum Likelihood Estimation for the Beta-Binomial Distribution, Biometrics 29, 637–648',
    basis: 'from memory',
  },
  'hyman-1983': {
    citation: 'Hyman 1983, Accurate Monotonicity Preserving Cubic Interpolation, SIAM J. Sci. Stat. Comput. 4, 645–654',
    basis: 'from memory',
  },
  'hyndman-fan-1996': {
    citation: 'Hyndman, Fan 1996, Sample Quantiles in Statistical Packages, Am. Stat. 50, 361–365',
    basis: 'from memory',
  },
  'iapws-r14-08': {
    citation: 'IAPWS R14-08(2011), Pressure along the Melting and Sublimation Curves of Ordinary Water Substance',
    basis: 'source',
  },
  'iapws-sr1-86': {
    citation:
      'Wagner, Pruss 1993, International Equations for the Saturation Properties of Ordinary Water Substance (IAPWS SR1-86)',
    basis: 'from memory',
  },
  'ipcc-ar4-gwp': { citation: 'IPCC AR4, WG I, chapter 2, table 2.14', basis: 'source' },
  'ipcc-ar5-gwp': { citation: 'IPCC AR5, WG I, chapter 8, table 8.A.1', basis: 'source' },
  'ipcc-ar6-gwp': { citation: 'IPCC AR6, WG I, chapter 7, table 7.SM.7', basis: 'source' },
  'isentropic-nozzle': {
    citation:
      'Gas dynamics textbooks, isentropic flow of an ideal gas through a nozzle, sonic where the pressure ratio is critical',
    basis: 'from memory',
  },
  'iso-2533': { citation: 'ISO 2533, Standard Atmosphere', basis: 'from memory' },
  'kalbfleisch-prentice': {
    citation: 'Kalbfleisch, Prentice, The Statistical Analysis of Failure Time Data',
    basis: 'from memory',
  },
  'kamei-1995': {
    citation:
      'Kamei, Beyerlein, Jacobsen 1995, Application of Nonlinear Regression in the Development of a Wide Range Formulation for HCFC-22, Int. J. Thermophys. 16, 1155–1164',
    basis: 'source',
  },
  'kaplan-meier-1958': {
    citation:
      'Kaplan, Meier 1958, Nonparametric Estimation from Incomplete Observations, J. Am. Stat. Assoc. 53, 457–481',
    basis: 'from memory',
  },
  'kunz-wagner-2012': {
    citation:
      'Kunz, Wagner 2012, The GERG-2008 Wide-Range Equation of State for Natural Gases and Other Mixtures, J. Chem. Eng. Data 57, 3032–3091 (form of the model; none of its parameters)',
    basis: 'from memory',
  },
  'lanczos-1964': {
    citation: 'Lanczos 1964, SIAM J. Numer. Anal. B 1, 86–96 (coefficients for g = 7 as widely used)',
    basis: 'from memory',
  },
  'le-cessie-1992': {
    citation: 'Le Cessie, van Houwelingen 1992, Ridge Estimators in Logistic Regression, Appl. Statist. 41, 191–201',
    basis: 'from memory',
  },
  'leak-regimes': {
    citation:
      'Leak testing textbooks: laminar leaks grow with (p₁² − p₂²)/η, molecular ones with (p₁ − p₂)/√M, holes with p₁/√M',
    basis: 'from memory',
  },
  'lemmon-2009': {
    citation:
      'Lemmon, McLinden, Wagner 2009, Thermodynamic Properties of Propane III, J. Chem. Eng. Data 54, 3141–3180',
    basis: 'source',
  },
  'lemmon-akasaka-2022': {
    citation: 'Lemmon, Akasaka 2022, An International Standard Formulation for R-1234yf, Int. J. Thermophys. 43, 119',
    basis: 'source',
  },
  'lemmon-jacobsen-2000': {
    citation:
      'Lemmon, Jacobsen 2000, An International Standard Formulation for R-143a, J. Phys. Chem. Ref. Data 29, 521–552',
    basis: 'source',
  },
  'lemmon-jacobsen-2004': {
    citation:
      'Lemmon, Jacobsen 2004, Equations of State for Mixtures of R-32, R-125, R-134a, R-143a, and R-152a, J. Phys. Chem. Ref. Data 33, 593–620',
    basis: 'source',
  },
  'lemmon-jacobsen-2005': {
    citation:
      'Lemmon, Jacobsen 2005, A New Functional Form and New Fitting Techniques for Equations of State with Application to R-125, J. Phys. Chem. Ref. Data 34, 69–108',
    basis: 'source',
  },
  'maker-line-set-table': {
    citation:
      'An equipment maker’s line-set table for R-410A: 0.60, 0.40, 0.27 oz/ft for liquid lines of 3/8, 5/16, 1/4 in',
    basis: 'source',
  },
  'maker-manual-2-7': {
    citation:
      'An equipment maker’s manual (computer-room unit), 2.7: at most 250 µm; pump off for at least 15 min, not over 700 µm',
    basis: 'source',
  },
  'maker-manual-page-12': {
    citation:
      'An equipment maker’s manual (residential split), page 12: evacuate, break with nitrogen, evacuate again until 500 µm is maintained within 20 min after shut-off',
    basis: 'source',
  },
  'maker-manual-table-7': {
    citation:
      'An equipment maker’s manual (condensing units), table 7: test with nitrogen up to 28 bar gauge on the high side, 19 bar gauge on the low side',
    basis: 'source',
  },
  'maker-superheat-table': {
    citation:
      'Two equipment makers’ manuals: target superheat of a fixed orifice by outdoor dry bulb and indoor wet bulb',
    basis: 'source',
  },
  'mantel-1966': {
    citation:
      'Mantel 1966, Evaluation of Survival Data and Two New Rank Order Statistics, Cancer Chemotherapy Reports 50, 163–170',
    basis: 'from memory',
  },
  'marshall-1991': {
    citation:
      'Marshall 1991, Mapping Disease and Mortality Rates Using Empirical Bayes Estimators, Appl. Statist. 40, 283–294',
    basis: 'source',
  },
  'michelsen-1982': {
    citation: 'Michelsen 1982, The Isothermal Flash Problem, Part I: Stability, Fluid Phase Equilibria 9, 1–19',
    basis: 'from memory',
  },
  'montgomery-runger': {
    citation: 'Montgomery, Runger, Applied Statistics and Probability for Engineers, example 16-6',
    basis: 'source',
  },
  'newcombe-1998': {
    citation:
      'Newcombe 1998, Two-sided confidence intervals for the single proportion, Stat. Med. 17, 857–872, method 3',
    basis: 'from memory',
  },
  'nist-sematech-handbook': { citation: 'NIST/SEMATECH e-Handbook of Statistical Methods, chapter 6', basis: 'source' },
  'nist-sp-811': {
    citation: 'NIST SP 811, Guide for the Use of the International System of Units, appendix B.9, conversion factors',
    basis: 'source',
  },
  'nist-tn-1848': {
    citation:
      'Domanski, Henderson, Payne 2014, Sensitivity Analysis of Installation Faults on Heat Pump Performance, NIST Technical Note 1848 (coefficients as public building-energy simulation code has them)',
    basis: 'source',
  },
  'openbugs-surgical': { citation: 'OpenBUGS Examples, volume 1, Surgical: institutional ranking', basis: 'source' },
  'owasp-csv-injection': {
    citation:
      'OWASP Foundation, CSV Injection: cells that begin with = + - @, tab, carriage return or line feed; a single quote before them',
    basis: 'source',
  },
  'page-1954': { citation: 'Page 1954, Continuous Inspection Schemes, Biometrika 41, 100–115', basis: 'from memory' },
  'patterson-thompson-1971': {
    citation:
      'Patterson, Thompson 1971, Recovery of inter-block information when block sizes are unequal, Biometrika 58, 545–554',
    basis: 'from memory',
  },
  qartod: { citation: 'U.S. IOOS QARTOD manuals, quality flags for real-time sensor data', basis: 'source' },
  'peduzzi-1995': {
    citation:
      'Peduzzi, Concato, Feinstein, Holford 1995, Importance of Events per Independent Variable in Proportional Hazards Regression, J. Clin. Epidemiol. 48, 1503–1510',
    basis: 'from memory',
  },
  'rise-protocol-ra3': {
    citation:
      'California Title 24 Part 6, Residential Appendix RA3.2.3.1: at most 500 µm, then a rise of at most 300 µm in 5 min',
    basis: 'from memory',
  },
  'robins-finkelstein-2000': {
    citation:
      'Robins, Finkelstein 2000, Correcting for Noncompliance and Dependent Censoring with Inverse Probability of Censoring Weighted Log-Rank Tests, Biometrics 56, 779–788',
    basis: 'from memory',
  },
  'savitzky-golay-1964': {
    citation:
      'Savitzky, Golay 1964, Smoothing and Differentiation of Data by Simplified Least Squares Procedures, Anal. Chem. 36, 1627',
    basis: 'from memory',
  },
  'schall-1991': {
    citation: 'Schall 1991, Estimation in Generalized Linear Models with Random Effects, Biometrika 78, 719–727',
    basis: 'from memory',
  },
  'span-2000': {
    citation:
      'Span, Lemmon, Jacobsen, Wagner, Yokozeki 2000, A Reference Equation of State for Nitrogen, J. Phys. Chem. Ref. Data 29, 1361–1433',
    basis: 'source',
  },
  'spiegelhalter-2005': {
    citation: 'Spiegelhalter 2005, Funnel Plots for Comparing Institutional Performance, Statist. Med. 24, 1185–1202',
    basis: 'source',
  },
  'steiner-2000': {
    citation:
      'Steiner, Cook, Farewell, Treasure 2000, Monitoring Surgical Performance Using Risk-adjusted Cumulative Sum Charts, Biostatistics 1, 441–452',
    basis: 'from memory',
  },
  'takahashi-1973': {
    citation:
      'Takahashi, Fagan, Chin 1973, Formation of a Sparse Bus Impedance Matrix, 8th PICA Conference (entries of an inverse from its factors)',
    basis: 'from memory',
  },
  'thol-lemmon-2016': {
    citation: 'Thol, Lemmon 2016, Equation of State for R-1234ze(E), Int. J. Thermophys. 37, 28',
    basis: 'source',
  },
  'tillner-roth-baehr-1994': {
    citation:
      'Tillner-Roth, Baehr 1994, An International Standard Formulation for R-134a, J. Phys. Chem. Ref. Data 23, 657–729',
    basis: 'source',
  },
  'tillner-roth-yokozeki-1997': {
    citation:
      'Tillner-Roth, Yokozeki 1997, An International Standard Equation of State for R-32, J. Phys. Chem. Ref. Data 26, 1273–1328',
    basis: 'source',
  },
  'training-sheet-cs-17': {
    citation: 'A training sheet from the UK (CS-17, 2016): tightness test of the high side of R-404A at 24.8 bar gauge',
    basis: 'source',
  },
  'title-24-ra3-2': {
    citation:
      'California Title 24 Part 6, Residential Appendix RA3.2 (2008, 2013), superheat and subcooling of split systems',
    basis: 'source',
  },
  'ufgs-15652a': {
    citation:
      'UFGS 15652A, 3.2.1.2 Pneumatic Test: the leakage test pressure of ASHRAE 15, at most 25 % more; 24 h; corrected for temperature, no change',
    basis: 'source',
  },
  'ufgs-refrigerant-piping': {
    citation:
      'UFGS Refrigerant Piping (15182), 3.3.2 Pneumatic Test: 24 h; corrected for temperature, no change; 3.3.3 Evacuation Test: 300 µm; valve off; after 1 h at most 500 µm',
    basis: 'source',
  },
  'ufgs-water-source-heat-pump': {
    citation:
      'UFGS Water-Source Heat Pumps (15741N), 3.7.3: nitrogen at 300 psi on the high and 150 psi on the low side, 2 h, no drop; three evacuations to 300 µm; the last held at 300 µm for 2 h with the pump secured',
    basis: 'source',
  },
  'vacuum-conductance': {
    citation:
      'Vacuum textbooks, flow through tubes: viscous 135 d⁴p/L, molecular 12.1 d³/L, Knudsen all-regime (air, 20 °C, cm, mbar, L/s)',
    basis: 'source',
  },
  'vacuum-rate-of-rise': { citation: 'Vacuum know-how, pressure-rise method: Q = V Δp/Δt', basis: 'source' },
  'verweij-van-houwelingen-1994': {
    citation:
      'Verweij, van Houwelingen 1994, Penalized Likelihood in Cox Regression, Statistics in Medicine 13, 2427–2436',
    basis: 'from memory',
  },
  'west-1985': {
    citation:
      'West, Harrison, Migon 1985, Dynamic Generalized Linear Models and Bayesian Forecasting, J. Am. Stat. Assoc. 80, 73–83',
    basis: 'from memory',
  },
  'wilson-hilferty-1931': {
    citation: 'Wilson, Hilferty 1931, The Distribution of Chi-square, Proc. Natl. Acad. Sci. 17, 684–688',
    basis: 'from memory',
  },
  'winnowing-2003': {
    citation: 'Schleimer, Wilkerson, Aiken 2003, Winnowing: Local Algorithms for Document Fingerprinting, SIGMOD',
    basis: 'source',
  },
} as const satisfies Record<string, Reference>;

export type ReferenceKey = keyof typeof references;
