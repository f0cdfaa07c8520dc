/** Vapour pressure of water over liquid at a temperature [°C] → [Pa]: Magnus form, from memory, within 0.4 % to −40 °C. */
function saturationPa(airC: number): number {
  return 610.94 * Math.exp((17.625 * airC) / (airC + 243.04));
}

/** Water in saturated air [kg per kg of dry air]. */
function saturatedRatio(airC: number, atmospherePa: number): number {
  const waterPa = saturationPa(airC);
  return (0.622 * waterPa) / (atmospherePa - waterPa);
}

/** Water in air of a dry and a wet bulb [kg per kg of dry air], by the psychrometer equation, from memory. */
export function humidityRatio(dryC: number, wetC: number, atmospherePa: number): number {
  const waterPa = Math.max(1, saturationPa(wetC) - 6.6e-4 * atmospherePa * (dryC - wetC));
  return (0.622 * waterPa) / (atmospherePa - waterPa);
}

/** Enthalpy of moist air [J per kg of dry air]. */
export function airEnthalpy(airC: number, ratio: number): number {
  return 1006 * airC + ratio * (2.501e6 + 1860 * airC);
}

/** Enthalpy of air that has come to a surface of that temperature [°C], where what it cannot hold runs off [J/kg]. */
export function enthalpyAtSurface(surfaceC: number, ratio: number, atmospherePa: number): number {
  return airEnthalpy(surfaceC, Math.min(ratio, saturatedRatio(surfaceC, atmospherePa)));
}
