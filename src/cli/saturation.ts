import { DryholdError } from '../errors.ts';
import { standardAtmosphere } from '../physics/index.ts';
import { parseAltitude } from '../units/parse-altitude.ts';
import { parseBarometer } from '../units/parse-barometer.ts';
import { parseTemperatureOrPressure } from '../units/parse-temperature-or-pressure.ts';
import { visibleText } from '../units/visible-text.ts';
import { type AddCommand, type CommonOptions, exitStatus, say, sayJson } from './context.ts';
import { saturationAnswer, saturationAnswerJson } from './saturation-answer.ts';
import { saturationSource } from './saturation-source.ts';
import { saturationText } from './saturation-text.ts';

interface SaturationOptions extends CommonOptions {
  readonly altitude?: string;
  readonly barometer?: string;
}

/** `dryhold saturation`: both sides of the curve for temperatures and pressures. */
export const addSaturation: AddCommand = (program, settle) => {
  program
    .command('saturation')
    .summary('boiling and condensing points of a refrigerant')
    .description(
      'Answers a temperature with the pressures at which a refrigerant boils and condenses there, a pressure with the temperatures, and both with the densities of liquid and vapour.',
    )
    .argument('<refrigerant>', 'R-410A, r32, 454B …; a blend by mass: "R-32/125 (50/50)"; or water')
    .argument('<value...>', 'a temperature (40F, -32.5C) or a pressure (118psig, 8.2bar, 250micron)')
    .option('--altitude <height>', 'of the site, such as 5000ft; sea level where left out')
    .option('--barometer <pressure>', 'at the site itself, such as 24.9inHg; wins over --altitude')
    // A value such as -32.5C would pass for an option.
    .allowUnknownOption()
    .addHelpText(
      'after',
      `
psig, barg, kPag and "inHg vacuum" count from the air around the gauge; bar, kPa, psia and
micron are absolute.
With --json the temperature_k of a pressure is the mean of its bubble and dew point.

examples:
  dryhold saturation R-410A 40F 118psig
  dryhold saturation R-454B -20F 0F 20F 40F
  dryhold saturation r32 8.2bar --units si
  dryhold saturation "R-32/125/134a (23/25/52)" 70psig --altitude 5000ft
  dryhold saturation water 500micron`,
    )
    .action((refrigerant: string, words: readonly string[], options: SaturationOptions) => {
      const stray = words.find((word) => /^--|^-[^\d.]/.test(word));
      if (stray !== undefined) throw new DryholdError('bad-usage', { problem: `unknown option "${stray}"` });
      const values = joinedValues(words);
      if (isValue(refrigerant)) {
        const problem = `the refrigerant comes first, as in: dryhold saturation R-410A ${refrigerant}`;
        throw new DryholdError('bad-usage', { problem });
      }
      const { atmospherePa, site } = siteAir(options);
      const source = saturationSource(refrigerant);
      const answers = values.map((value) => saturationAnswer(source, value, atmospherePa));
      if (options.json) sayJson(answers.map((answer) => saturationAnswerJson(answer, source)));
      else say(saturationText(source, answers, { ...options, atmospherePa, site }));
      if (answers.some(({ found }) => typeof found === 'string')) settle(exitStatus.refused);
    });
};

/** Values as they were meant: a number and the unit after it, which a shell takes apart, are one. */
function joinedValues(words: readonly string[]): string[] {
  const values: string[] = [];
  for (const word of words.map((each) => each.trim().replace(/\s+/g, ' '))) {
    const before = values.at(-1);
    // A unit follows a bare number, and `vacuum` or `gauge` a unit.
    const goesOn = before !== undefined && /^[^\d.+\-−]/.test(word) && !isValue(before);
    if (goesOn) values[values.length - 1] = `${before} ${word}`;
    else values.push(word);
  }
  return values;
}

function isValue(text: string): boolean {
  try {
    parseTemperatureOrPressure(text);
    return true;
  } catch {
    return false;
  }
}

function siteAir({ altitude, barometer }: SaturationOptions): { atmospherePa: number; site: string } {
  if (barometer !== undefined) return { atmospherePa: parseBarometer(barometer), site: 'by the barometer' };
  if (altitude !== undefined) {
    return {
      atmospherePa: standardAtmosphere(parseAltitude(altitude)),
      site: `the standard atmosphere at ${visibleText(altitude)}`,
    };
  }
  return {
    atmospherePa: standardAtmosphere(0),
    site: 'the standard atmosphere at sea level (for another site: --altitude or --barometer)',
  };
}
