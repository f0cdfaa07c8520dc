import { shop } from './shop.ts';

const DAY_MS = 86_400_000;
const firstMs = Date.parse(`${shop.firstDay}T00:00:00Z`);

/** Days in the simulated year. */
export const days = (Date.parse(`${shop.lastDay}T00:00:00Z`) - firstMs) / DAY_MS + 1;

const two = (value: number) => String(value).padStart(2, '0');

/** The day, ISO 8601, `day` days after the first. */
export function dateOfDay(day: number): string {
  return new Date(firstMs + Math.floor(day) * DAY_MS).toISOString().slice(0, 10);
}

/** The instant, ISO 8601 with the shop's offset; `day` counts from the first, with its fraction in the shop's clock. */
export function instantOfDay(day: number): string {
  const sign = shop.offsetMinutes < 0 ? '-' : '+';
  const offset = Math.abs(shop.offsetMinutes);
  const local = new Date(firstMs + Math.round(day * 86_400) * 1000).toISOString().slice(0, 19);
  return `${local}${sign}${two(Math.floor(offset / 60))}:${two(offset % 60)}`;
}

/** Mean outdoor temperature of a day [°C]: warmest at the end of July, coldest at the end of January. */
export function seasonC(day: number): number {
  return 14 + 12 * Math.cos((2 * Math.PI * (day - 27)) / 365);
}
