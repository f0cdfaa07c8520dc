import { describe, expect, test } from 'vitest';
import { phaseState } from '../../../src/physics/equations/phase-state.ts';
import { refrigerantDesignations, refrigerantNamed } from '../../../src/physics/index.ts';
import { referenceCells } from '../../reference-rows.ts';

describe('phaseState', () => {
  test.each(referenceCells('equation-check-values'))(
    'reproduces $pressure_mpa MPa of $refrigerant at $temperature_k K and $density_mol_per_dm3 mol/dm³, check value of its paper',
    (row) => {
      const refrigerant = refrigerantNamed(row.refrigerant);
      const density = Number(row.density_mol_per_dm3) * 1000;
      const { pressurePa } = phaseState(refrigerant, Number(row.temperature_k), density, [1]);
      expect(Math.abs(pressurePa / 1e6 - Number(row.pressure_mpa))).toBeLessThanOrEqual(Number(row.tolerance_mpa));
    },
  );

  // The pressure's own slope, and Gibbs and Duhem: Σ x_i d(ln f_i) = dp / (ρ R T) at constant temperature and composition.
  test.each(refrigerantDesignations)(
    '%s: stiffness is the slope of pressure, and fugacities follow it',
    (designation) => {
      const refrigerant = refrigerantNamed(designation);
      const { moleFractions, gasConstantJPerMolK } = refrigerant;
      for (const [temperatureK, densityMolPerM3] of [
        [250, 80],
        [300, 500],
        [300, 12000],
      ]) {
        const at = (density: number) => phaseState(refrigerant, temperatureK, density, moleFractions);
        const step = densityMolPerM3 * 1e-5;
        const [below, here, above] = [-step, 0, step].map((move) => at(densityMolPerM3 + move));
        const slope = (above.pressurePa - below.pressurePa) / (2 * step);
        expect(here.stiffnessPaM3PerMol / slope).toBeCloseTo(1, 6);
        const shift = moleFractions.reduce((sum, x, i) => sum + x * (above.lnFugacity[i] - below.lnFugacity[i]), 0);
        const duhem = (above.pressurePa - below.pressurePa) / (densityMolPerM3 * gasConstantJPerMolK * temperatureK);
        expect(shift / duhem).toBeCloseTo(1, 6);
      }
    },
  );
});
