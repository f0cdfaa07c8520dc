/** Molar gas constant [J/(mol K)], exact since 2019. Source: `codata-2018`. */
export const GAS_CONSTANT_J_PER_MOL_K = 8.314462618;
