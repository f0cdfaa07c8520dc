import { type GwpVintage, vintageText } from '../accounts/gwp.ts';
import { groupedCount } from './share-text.ts';

/**
 * A mass as carbon dioxide [t], without its vintage; a dash where the value is not known.
 *
 * @example co2eFigure(2.088) // '2.09'
 */
export function co2eFigure(co2eT: number | null): string {
  if (co2eT === null) return '–';
  const size = Math.abs(co2eT);
  const digits =
    size < 0.0005
      ? '0'
      : size < 9.995
        ? size.toFixed(2)
        : size < 99.95
          ? size.toFixed(1)
          : groupedCount(Math.round(size));
  return co2eT < 0 && Number(digits.replaceAll('\u00a0', '')) !== 0 ? `−${digits}` : digits;
}

/**
 * The same with its unit and its vintage.
 *
 * @example co2eText(2.088, 'us') // '2.09 t CO₂e (40 CFR 84)'
 */
export function co2eText(co2eT: number | null, vintage: GwpVintage): string {
  return co2eT === null ? 'CO₂e not known' : `${co2eFigure(co2eT)} t CO₂e (${vintageText[vintage]})`;
}
