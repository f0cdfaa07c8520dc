import { DryholdError } from '../errors.ts';
import { parseAmounts } from '../units/parse-amounts.ts';
import { parseQuantity } from '../units/parse-quantity.ts';
import { visibleText } from '../units/visible-text.ts';

/** How far above the air a test pressure is [Pa]: a cylinder of nitrogen has no more than the most. Common practice, no source. */
const leastTestPa = 1e4;
const mostTestPa = 2e7;
const wanted = 'a test pressure, such as 300psig or 20barg; an absolute one in psia or bara';
/** What to write instead of a unit that does not say what it counts from, and how many of it one is. */
const bareUnits = new Map([
  ['bar', { name: 'bar', size: 1, write: ['barg', 'bara'] }],
  ['mbar', { name: 'mbar', size: 0.001, write: ['barg', 'bara'] }],
  ['pa', { name: 'Pa', size: 1e-5, write: ['barg', 'bara'] }],
  ['hpa', { name: 'hPa', size: 0.001, write: ['barg', 'bara'] }],
  ['kpa', { name: 'kPa', size: 1, write: ['kPag', 'kPaa'] }],
  ['mpa', { name: 'MPa', size: 10, write: ['barg', 'bara'] }],
]);

/**
 * The pressure of a test that is planned, as a person writes it. A bar or a kPa with nothing said may be a gauge's or an
 * absolute one, and is refused as a psi is.
 *
 * @returns absolute [Pa]
 * @throws DryholdError `unreadable-quantity`; `bad-usage` for what is no test pressure
 * @example planTestPressure('20barg', 101325) // 2101325
 */
export function planTestPressure(text: string, atmospherePa: number): number {
  refuseBare(text);
  const read = parseQuantity(text, ['gauge-pressure', 'absolute-pressure'], { wanted });
  const testPa = read.kind === 'gauge-pressure' ? read.gauge.gaugePa + atmospherePa : read.pressurePa;
  if (testPa >= atmospherePa + leastTestPa && testPa <= atmospherePa + mostTestPa) return testPa;
  const problem = `must be above the air at the site, by 1.5 psi to 2900 psi (0.1 to 200 bar), received "${text}"`;
  throw new DryholdError('bad-usage', { problem });
}

function refuseBare(text: string): void {
  const read = parseAmounts(text);
  if ('problem' in read || read.amounts.length > 1) return;
  const [{ value, word }] = read.amounts;
  const bare = bareUnits.get(word.toLowerCase());
  if (bare === undefined) return;
  const number = Number((read.sign * value * bare.size).toPrecision(12));
  throw new DryholdError('unreadable-quantity', {
    text: visibleText(text),
    problem: `"${bare.name}" says neither gauge nor absolute, write ${bare.write.map((unit) => `${number}${unit}`).join(' or ')}`,
    wanted,
  });
}
