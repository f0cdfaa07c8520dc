import type { QuantityKind } from './quantity.ts';

/** How messages name each kind, and what people write for it. */
const kindTexts: Readonly<Record<QuantityKind, { noun: string; examples: readonly string[] }>> = {
  temperature: { noun: 'a temperature', examples: ['40F', '4.5 C'] },
  'absolute-pressure': { noun: 'an absolute pressure', examples: ['133 psia', '8.2 bar', '250 micron'] },
  'gauge-pressure': { noun: 'a gauge pressure', examples: ['118 psig', '8.1 barg', '20 inHg vacuum'] },
  mass: { noun: 'a mass', examples: ['5 lb 6 oz', '3.5 oz', '2.4 kg'] },
  length: { noun: 'a length', examples: ['25 ft', '3/8 in', '7.62 m', '9.52 mm'] },
  duration: { noun: 'a duration', examples: ['15 min', '1 h 30 min', '90 s'] },
  volume: { noun: 'a volume', examples: ['4.2 L', '0.15 cu ft'] },
  flow: { noun: 'a flow', examples: ['6 cfm', '2.8 L/s'] },
  power: { noun: 'a power', examples: ['3.5 kW', '900 W'] },
};

/** A kind as messages name it. */
export function nounOf(kind: QuantityKind): string {
  return kindTexts[kind].noun;
}

/**
 * Some kinds as messages ask for them, with examples in the units that people write.
 *
 * @param kinds at least one
 * @example wantedText(['flow']) // 'a flow, such as 6 cfm or 2.8 L/s'
 */
export function wantedText(kinds: readonly QuantityKind[]): string {
  const examples = kinds.flatMap((kind) => kindTexts[kind].examples).join(', ');
  return `${kinds.map(nounOf).join(' or ')}, such as ${examples.replace(/, ([^,]*)$/, ' or $1')}`;
}
