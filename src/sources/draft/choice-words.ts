import { refrigerantDesignations } from '../../physics/refrigerants/refrigerant-named.ts';
import type { Column } from '../../records/table.ts';
import { plainWords } from './plain-words.ts';

/** How people write the words of our choices; compared with texts as `plainWords` makes them. */
const choiceWords: Readonly<Record<string, readonly (readonly [word: string, written: RegExp])[]>> = {
  run_mode: [
    ['defrost', /defrost|abtau|degivr|descong|desescarch/],
    ['cooling', /cool|kuhl|kuehl|froid|frio|refrig|enfri/],
    ['heating', /heat|heiz|chaud|chauff|calor|calef/],
  ],
  phase_mark: [
    [
      'pressure-test',
      /press\w* test|nitrogen|leak test|druckprob|pruf|stickstoff|azote|epreuve|prueba|nitrogeno|estanq/,
    ],
    ['isolation', /isol|decay|rise|standing vac|valve ?off|absperr|abgesperrt|anstieg|remontee|subida/],
    ['hold', /\bhold|halten|haltezeit|maintien|mantener/],
    ['break', /break|\bbrechen|brise|casse|romper/],
    ['weigh-in', /weigh|charg|full|befull|einfull|pesee|carga/],
    ['pull-down', /pull|evac|pump|vacuum|vakuum|vide|vacio/],
    ['run', /\brun|operat|betrieb|lauf|marche|fonction|marcha/],
  ],
  work_type: [
    ['decommission', /decom|dispos|ruckbau|demont|desmont/],
    ['retrofit', /retrofit|umrust|conversion|reconver/],
    ['replace', /repl|austausch|ersatz|remplac|reempl|cambio|change ?out/],
    ['install', /inst|neuanlage|montage|new|nuev|mise en service|inbetrieb/],
    ['recharge', /re ?charg|top ?up|nachfull|appoint|recarg/],
    ['repair', /repair|leak|repar|reparatur|fix/],
    ['service', /serv|mainten|wartung|entretien|mantenim|tune/],
  ],
  direction: [
    ['out', /^out|recover|remov|off|aus|entnahme|ruckgew|sortie|recup|salida|retir/],
    ['in', /^in|charg|add|ein|full|entree|ajout|entrada|carga/],
  ],
  purpose: [
    ['install', /inst|new|neu|nuev/],
    ['retrofit', /retrofit|umrust|conver/],
    ['leak', /leak|undicht|fuite|fuga|repar/],
    ['seasonal', /season|saison|estacion/],
    ['recovery', /recov|ruckgew|recup/],
  ],
  kind: [
    ['recovery', /recov|ruckgew|recup|empty|leer/],
    ['supply', /supply|new|virgin|neu|vorrat|neuf|nuev|full/],
  ],
};

/** What a text of a choice column means, or undefined where no word fits. */
export function choiceOf(column: Column, text: string): string | undefined {
  const plain = plainWords(text);
  const own = column.words?.find((word) => plainWords(word) === plain);
  if (own !== undefined) return own;
  if (plain === '') return undefined;
  return choiceWords[column.name]?.find(([, written]) => written.test(plain))?.[0];
}

const yes = /^(?:y|yes|true|1|ja|j|oui|o|si|x|on)$/;
const no = /^(?:n|no|false|0|nein|non|off)$/;

/** What a text of a yes-or-no column means. */
export function flagOf(text: string): boolean | undefined {
  const plain = plainWords(text);
  if (yes.test(plain)) return true;
  return no.test(plain) ? false : undefined;
}

const trivial: ReadonlyMap<string, string> = new Map([
  ['propane', 'R-290'],
  ['propan', 'R-290'],
  ['propano', 'R-290'],
  ['isobutane', 'R-600a'],
  ['isobutan', 'R-600a'],
  ['isobutano', 'R-600a'],
  ['co2', 'R-744'],
]);

/** The designation that a text means: R410A, r-410a and 410a are R-410A; undefined where it is no designation. */
export function designationOf(text: string): string | undefined {
  const plain = text
    .toLowerCase()
    .replaceAll(/[\s()_-]/g, '')
    .replace(/^(?:r|hfc|hcfc|hfo)(?=\d)/, '');
  const known = refrigerantDesignations.find(
    (each) =>
      each
        .toLowerCase()
        .replaceAll(/[\s()-]/g, '')
        .replace(/^r/, '') === plain,
  );
  if (known !== undefined) return known;
  const [, number, tail] = /^(\d{2,4})([a-z]{0,2})$/.exec(plain) ?? [];
  // The letters of pure fluids are small, those of blends (400 and 500) large.
  if (number !== undefined) return `R-${number}${/^[45]\d\d$/.test(number) ? tail.toUpperCase() : tail}`;
  return trivial.get(plain);
}
