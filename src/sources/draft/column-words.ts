import type { Dimension } from '../../units/unit.ts';

/** Words that name a column of ours; compared with names as `plainWords` makes them. */
export interface ColumnWords {
  readonly column: string;
  readonly words: RegExp;
  /** Words that make it something else. */
  readonly not?: RegExp;
  /** What the column must measure as well: by its unit, or by these words. */
  readonly measures?: Dimension;
  /** Whether the words leave so much open that people must look. */
  readonly vague?: string;
}

const temperatureWords =
  /temp|\bt\b|\bline\b|\bpipe\b|\bclamp\b|leitung|rohr|zange|tuyau|conduite|ligne|linea|tubo|tuberia|pinza|pince/;
const pressureWords = /press|druck|pression|presion|\bp\b|psi|\bbar\b|kpa/;
const massWords = /weight|scale|mass|waage|gewicht|masse|balance|poids|bascula|balanza|peso|charge|fullung|carga/;

/** Whether the words of a name say what it measures; undefined where they do not. */
export function measuredByWords(plain: string): Dimension | undefined {
  if (/temp|\bt\b/.test(plain)) return 'temperature';
  if (pressureWords.test(plain)) return 'pressure';
  if (temperatureWords.test(plain)) return 'temperature';
  return massWords.test(plain) ? 'mass' : undefined;
}

const suction =
  /\b(suction|suct|saug\w*|aspiration|aspiracion|succion|low side|low pressure|low|lo|niederdruck\w*|nd|lp|ls|basse pression|bp|baja)\b/;
const liquid =
  /\b(liquid|liq|fluss?\w*|fluessig\w*|liquide|liquido|high side|high pressure|high|hi|hochdruck\w*|hd|hp|hs|haute pression|alta)\b/;
const vagueSide = /\b(low|lo|lp|ls|nd|bp|baja|high|hi|hp|hs|hd|alta|niederdruck|hochdruck)\b/;

/** What is computed, set or compared, no reading of an instrument. */
export const noReading =
  /\b(sat|satur\w*|sst|sct|dew|tau\w*|bubble|siede\w*|sattig\w*|saettig\w*|rosee|rocio|evap\w* temp\w*|cond\w* temp\w*|verdampf\w*|superheat|sh|uberhitz\w*|ueberhitz\w*|surchauffe|recalent\w*|subcool\w*|sub cool\w*|sc|unterkuhl\w*|unterkuehl\w*|sous refroid\w*|subenfri\w*|target|soll\w*|set ?point|setpoint|consigne|cible|objetivo|limit|grenz\w*|alarm|delta|diff\w*|split|avg|average|mean|mittel\w*|moyenne|media|rate|slope|leak ?rate)\b/;

/** The columns of `readings`; the first that fits counts. Times are told by `time-words.ts`. */
const readings: readonly ColumnWords[] = [
  {
    column: 'job_id',
    words:
      /^(?:job|visit|call|work ?order|wo|order|ticket|auftrag|auftrags|einsatz|intervention|dossier|orden|orden de trabajo|trabajo|parte)(?: ?(?:id|no|nr|n|num|number|nummer|numero|ref|reference|key|code))?$/,
  },
  { column: 'indoor_wet_bulb_c', words: /wet ?bulb|\bwb\b|feuchtkugel|(?:bulbe|thermometre) humide|bulbo humedo/ },
  { column: 'suction_line_c', words: suction, measures: 'temperature' },
  { column: 'liquid_line_c', words: liquid, measures: 'temperature' },
  {
    column: 'test_pressure_pa',
    words:
      /nitrogen|\bn2\b|stickstoff|azote|nitrogeno|standing pressure|pressure test|test pressure|test press|leak test|pruf?druck|pruefdruck|druckprob|druckpruf|druckpruef|pression d? ?(?:epreuve|essai)|presion de prueba|prueba de presion|estanqueidad/,
    measures: 'pressure',
  },
  {
    column: 'vacuum_pa',
    words: /\bvac(?:uum)?\b|vakuum|\bvide\b|\bvacio\b|\bmicrons?\b|\bmikron\b|\bmicrones\b|deep vac|evac\w* press/,
    not: /pump|pumpe|pompe|bomba|temp/,
    measures: 'pressure',
  },
  { column: 'suction_pa', words: suction, measures: 'pressure' },
  { column: 'liquid_pa', words: liquid, measures: 'pressure' },
  {
    column: 'outdoor_c',
    words: /\b(outdoor|outside|ambient|oat|odt|aussen\w*|umgebung\w*|exterieur\w*|exterieure|exterior|ambiente|amb)\b/,
    measures: 'temperature',
  },
  {
    column: 'return_c',
    words: /\b(return|ret|entering|ruckluft\w*|rueckluft\w*|umluft\w*|reprise|retour|retorno|rat)\b/,
    measures: 'temperature',
  },
  {
    column: 'supply_c',
    words: /\b(supply|leaving|sup|zuluft\w*|ausblas\w*|soufflage|impulsion|suministro)\b/,
    measures: 'temperature',
  },
  {
    column: 'indoor_c',
    words: /\b(indoor|inside|room|raum\w*|innen\w*|interieur\w*|interieure|interior|habitacion|sala|piece|idt)\b/,
    measures: 'temperature',
  },
  {
    column: 'compressor_w',
    words:
      /\b(power|watts?|leistung\w*|puissance|potencia|compressor|compresseur|compresor|verdichter\w*|kompressor\w*)\b/,
    measures: 'power',
  },
  {
    column: 'scale_kg',
    words: /\b(scale|weight|mass|waage\w*|gewicht\w*|masse|balance|poids|bascula|balanza|peso)\b/,
    measures: 'mass',
  },
  {
    column: 'line_c',
    words:
      /\b(pipe|line|tube|tubing|rohr\w*|leitung\w*|tuyau\w*|conduite|ligne|tuberia|tubo|linea|clamp|zange\w*|pince|pinza)\b/,
    measures: 'temperature',
  },
  { column: 'run_mode', words: /\b(mode|betriebsart|modus|modo)\b/ },
  { column: 'phase_mark', words: /\b(phase|stage|step|status|state|schritt|zustand|etape|etat|fase|etapa|estado)\b/ },
  {
    column: 'gauge',
    words:
      /^(?:gauge|sensor|instrument|device|messgerat|messgeraet|gerat|geraet|capteur|manometre|appareil|instrumento|aparato)(?: ?(?:id|name|no|nr|num|number|serial))?$/,
  },
];

/** Tables of which each row of a file is one: how their columns are called. */
const jobId = { ...readings[0], column: 'job_id' };
const systemId = {
  column: 'system_id',
  words:
    /\b(system|unit|anlage|anlagen|installation|equipment|asset|instalacion|machine)(?: ?(?:id|no|nr|num|number|nummer|numero|tag|serial))?$/,
  not: /type|typ\b|measure|press|temp/,
};
const refrigerant = {
  column: 'refrigerant',
  words: /refrigerant|refrigerante|kaltemittel|kaeltemittel|frigorigene|^(?:gas|fluide?|gas type)$/,
  not: /added|charge|weigh|recover|kg|amount|nachgef|ajout|anad|cost/,
};
const technician = {
  column: 'technician_id',
  words:
    /\b(technician|tech|techniker\w*|monteur\w*|technicien\w*|tecnico|installer|mechanic|worker|who|operator|engineer|bediener|operateur|operario)\b/,
};
const started = {
  column: 'started_at',
  words:
    /\b(start(?:ed)?(?: at| time| date)?|begin|began|begun|beginn|from|debut|inicio|date|datum|fecha|day|tag|jour|arrival|test date|performed|created)\b/,
  not: /end|ende|fin\b|due|expir|calib|hire|report|print/,
};
const added =
  /\b(refrigerant added|charge added|added(?: charge| refrigerant| kg)?|nachgefull\w*|nachgefuell\w*|ajoute\w*|anadid\w*)\b/;

const jobs: readonly ColumnWords[] = [
  jobId,
  technician,
  {
    column: 'weighed_in_kg',
    words:
      /\b(weighed in|weigh in|charged|amount charged|eingewogen|eingefull\w*|eingefuell\w*|charge pesee|cargad[oa])\b|refrigerant added|charge added|nachgefull|nachgefuell|ajoute|anadid/,
    measures: 'mass',
  },
  { column: 'recovered_kg', words: /recover|reclaim|abgesaugt|ruckgewonnen|rueckgewonnen|recuper/, measures: 'mass' },
  {
    column: 'factory_charge_kg',
    words:
      /factory charge|nameplate charge|pre ?charge|fullmenge|fuellmenge|vorfull|werksfull|charge (?:d )?usine|charge nominale|carga de fabrica|carga nominal/,
    measures: 'mass',
  },
  { column: 'hose_residual_kg', words: /hose (?:residual|loss)|schlauchrest|reste.*flexible/, measures: 'mass' },
  {
    column: 'factory_line_m',
    words: /(?:covered|factory|included|precharged) (?:line )?length|factory line|vorgefullte lange/,
    measures: 'length',
  },
  {
    column: 'line_length_m',
    words: /(?:line|lineset|line set|pipe|piping|run) ?length|leitungslange|leitungslaenge|rohrlange|longueur|longitud/,
    not: /hose|schlauch|flexible|manguera/,
    measures: 'length',
  },
  {
    column: 'liquid_line_od_mm',
    words: /(?:liquid|fluss?ig\w*|liquide|liquido).*(?:od|dia|diameter|size|durchmesser|diametre|diametro)/,
    measures: 'bore',
  },
  {
    column: 'suction_line_od_mm',
    words: /(?:suction|vapou?r|gas|saug\w*|aspiration|succion).*(?:od|dia|diameter|size|durchmesser|diametre|diametro)/,
    measures: 'bore',
  },
  {
    column: 'vacuum_target_pa',
    words: /vac\w* target|target vac\w*|soll ?vakuum|vide (?:cible|consigne)|vacio objetivo/,
    measures: 'pressure',
  },
  {
    column: 'test_pressure_target_pa',
    words: /(?:test|nitrogen) pressure target|target (?:test )?pressure|soll ?prufdruck/,
    measures: 'pressure',
  },
  { column: 'barometer_pa', words: /\bbaro\w*|luftdruck|pression atmos|presion atmos/, measures: 'pressure' },
  { column: 'altitude_m', words: /altitude|elevation|\bhohe\b|\bhoehe\b|seehohe|altitud/, measures: 'length' },
  {
    column: 'rated_cooling_w',
    words: /rated cooling|cooling capacity|kalteleistung|kaelteleistung|puissance frigorifique|capacidad frigorifica/,
    measures: 'power',
  },
  refrigerant,
  {
    column: 'work_type',
    words:
      /(?:work|job|service) type|type of (?:work|job)|auftragsart|art der arbeit|type d intervention|tipo de trabajo/,
  },
  { column: 'ended_at', words: /\b(end(?:ed)?(?: at| time| date)?|finish\w*|complet\w*|ende|fin|departure)\b/ },
  started,
  { column: 'crew_id', words: /\b(crew|team|truck|van|trupp|kolonne|equipe|cuadrilla)(?: ?(?:id|no|nr|name))?$/ },
  {
    column: 'site_id',
    words: /\b(site|address|location|standort|adresse|objekt|chantier|obra|direccion|customer|kunde|client|cliente)\b/,
  },
  systemId,
  { column: 'pump_id', words: /\b(pump|pumpe|pompe|bomba)\b.*\b(?:id|serial|sn|nr|no|number)\b/ },
  { column: 'gauge_id', words: /\b(gauge|messgerat|manometre|vacuometro)\b.*\b(?:id|serial|sn|nr|no|number)\b/ },
  { column: 'scale_id', words: /\b(scale|waage|balance|bascula)\b.*\b(?:id|serial|sn|nr|no|number)\b/ },
  {
    column: 'note',
    words: /\b(notes?|remarks?|comments?|bemerkung\w*|anmerkung\w*|remarques?|commentaires?|observacion\w*|notas?)\b/,
  },
];

const cylinderId = {
  column: 'cylinder_id',
  words:
    /\b(cylinder|bottle|tank|flasche\w*|bouteille|cilindro|botella)(?: ?(?:id|no|nr|num|number|nummer|numero|serial|tag))?$/,
  not: /weight|kg|type/,
};

const weighings: readonly ColumnWords[] = [
  {
    column: 'weighing_id',
    words: /^(?:weighing|weigh|wiegung|wagung|waegung|pesee|pesaje)(?: ?(?:id|no|nr|num|number|nummer|numero))?$/,
  },
  jobId,
  {
    column: 'start_kg',
    words: /\b(before|start|initial|vorher|anfang\w*|avant|debut|antes|inicial|opening|first)\b/,
    measures: 'mass',
  },
  { column: 'end_kg', words: /\b(after|end|final|nachher|ende|apres|fin|despues|closing|last)\b/, measures: 'mass' },
  { column: 'hose_residual_kg', words: /hose (?:residual|loss)|schlauchrest/, measures: 'mass' },
  cylinderId,
  { column: 'direction', words: /direction|richtung|\bsens\b|sentido|in out/ },
  { column: 'at', words: /\b(at|date|datum|fecha|time|zeit|heure|hora|when|wann)\b/ },
  refrigerant,
  { column: 'purpose', words: /purpose|zweck|\bbut\b|proposito|reason|grund/ },
  systemId,
];

const callbacks: readonly ColumnWords[] = [
  {
    column: 'callback_id',
    words:
      /^(?:call ?back|complaint|reklamation|reclamation|reclamacion|rappel)(?: ?(?:id|no|nr|num|number|nummer|numero))?$/,
  },
  {
    column: 'reported_at',
    words: /reported|gemeldet|signale|call(?:ed)? (?:date|at|on)|callback date|\b(date|datum|fecha)\b/,
  },
  { column: 'cause_found', words: /cause|ursache|causa|finding|diagnos/ },
  { column: 'reason', words: /reason|complaint|symptom|grund|beschwerde|motif|motivo|problem/ },
  { column: 'refrigerant_added_kg', words: added, measures: 'mass' },
  { column: 'cost', words: /\b(cost|kosten|cout|coste|costo|price|amount)\b/ },
  jobId,
  systemId,
];

const cylinders: readonly ColumnWords[] = [
  cylinderId,
  { column: 'tare_kg', words: /\b(tare|tara|empty|leer\w*|vide|vacio)\b/ },
  { column: 'capacity_kg', words: /capacity|kapazitat|fassung|capacite|capacidad/, measures: 'mass' },
  { column: 'closing_kg', words: /closing|remaining|rest\w*|restant/, measures: 'mass' },
  { column: 'net_kg', words: /\b(net|netto|contents?|inhalt|contenu|neto|filled|fullmenge)\b/, measures: 'mass' },
  { column: 'closed_on', words: /closed|returned|geschlossen|zuruck|rendu|devuelt/ },
  {
    column: 'acquired_on',
    words: /acquired|received|bought|purchase|erhalten|gekauft|recu|achat|recibid|compra|\b(date|datum|fecha)\b/,
  },
  { column: 'kind', words: /\b(kind|type|art|tipo)\b/ },
  { column: 'cost', words: /\b(cost|kosten|cout|coste|costo|price|preis|prix|precio)\b/ },
  refrigerant,
];

const people: readonly ColumnWords[] = [
  { column: 'hired_on', words: /hire|hired|eintritt|eingestellt|embauche|contratad|joined|since|seit|depuis|desde/ },
  { column: 'display_name', words: /name|\bnom\b|nombre/, not: /\bid\b|user/ },
  {
    column: 'technician_id',
    words:
      /^(?:(?:technician|tech|employee|person|people|staff|techniker|monteur|mitarbeiter|personal|technicien|employe|tecnico|empleado) ?)?(?:id|no|nr|code|number|nummer|numero|kurzel|kuerzel|initials)$|^(?:technician|tech|techniker|monteur|technicien|tecnico)$/,
  },
];

/** How the columns of each table are called, in English, German, French and Spanish. */
export const columnWords: Readonly<Record<string, readonly ColumnWords[]>> = {
  readings,
  jobs,
  weighings,
  callbacks,
  cylinders,
  people,
};

/** Whether "low" or "high" only tells the side of a gauge set. */
export function namesOnlySide(plain: string): boolean {
  return vagueSide.test(plain) && !/suction|saug|aspir|succion|liquid|fluss|fluess|liquide|liquido/.test(plain);
}
