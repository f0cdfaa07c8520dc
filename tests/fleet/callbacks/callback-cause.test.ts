import { describe, expect, test } from 'vitest';
import { callbackCause } from '../../../src/fleet/callbacks/callback-cause.ts';

const found = (text: string) => callbackCause({ cause_found: text });

describe('what was found', () => {
  test.each([
    // English.
    'leak at a flare',
    'Flare nut loose, retightened',
    'leaking Schrader core, replaced',
    'two leaks at the brazed joints',
    'service valve not fully open',
    'moisture in the circuit',
    'non-condensables, head pressure high',
    'air in system',
    'charge off',
    'charge not right',
    'charge 20 % low',
    'charge was found 0.4 kg short',
    'unit very low on refrigerant',
    'undercharged from the start',
    'overcharged by 300 g',
    'wrong refrigerant in the cylinder',
    'total loss of charge',
    'needs gas',
    'liquid line drier blocked',
    'filter drier clogged',
    'expansion valve frozen by water',
    'lines were never evacuated',
    'no vacuum pulled',
    'topped up 0.5 kg',
    'added 12 oz refrigerant',
    'drain blocked, also low on charge',
    'filter dirty; no leak at the flares but moisture in the circuit',
    'no cooling due to leak',
    'no fault at the fan, leak at flare',
    'No. 2 flare leaking',
    'leak repaired, ok now',
    'mouse nest in the cabinet, flare leaking',
    'no refrigerant left in the system',
    // German.
    'Leck an der Bördelverbindung',
    'Kältemittelverlust an der Verschraubung',
    'Boerdel undicht',
    'Feuchtigkeit im Kältekreis',
    'Anlage unterfüllt',
    'ohne Kältemittel angetroffen',
    'Füllmenge war zu niedrig',
    '300 g Kältemittel nachgefüllt',
    'Filtertrockner verstopft',
    'Schraderventil undicht, ersetzt',
    'nicht evakuiert worden',
    'kein Leck am Verdampfer, aber Luft im System',
    // French.
    'fuite au raccord',
    'Dudgeon mal fait',
    'manque de fluide frigorigène',
    'humidité dans le circuit',
    'présence d’incondensables',
    'charge trop faible',
    'plus de gaz',
    'déshydrateur bouché',
    'pas de tirage au vide',
    // Spanish.
    'sin gas',
    'fuga en el abocardado',
    'fuga de refrigerante en una tuerca',
    'humedad en el circuito',
    'falta de gas',
    'carga muy baja',
    'filtro secador obstruido',
    'no se hizo vacío',
    'aire en el sistema',
  ])('%s: of commissioning', (text) => {
    expect(found(text)).toMatchObject({ cause: 'commissioning', by: 'cause-found' });
  });

  test.each([
    // English.
    'not refrigerant side',
    'no fault found',
    'all ok',
    'nothing wrong with the unit',
    'condensate drain blocked',
    'water leak from drain pan',
    'leak at a joint of the drain',
    'leak at the drain joint',
    'leaking at the indoor unit, drain hose off',
    'remote control battery flat',
    'breaker tripped, reset',
    'thermostat set wrong',
    'thermostat setting wrong, no leak found',
    'loose wire at terminal block',
    'fan motor replaced',
    'air filter dirty',
    'dirty condenser coil cleaned',
    'rattling panel, bracket tightened',
    'customer instructed how to use the timer',
    'line drilled through by the kitchen fitters, lost all gas',
    'rodents chewed the cable',
    'refrigerant circuit ok',
    'charge ok, filter blocked',
    'refrigerant not low, fan dead',
    'air leak in the duct',
    'airflow low',
    'compressor capacitor failed',
    'unit not cooling because the fan stopped',
    // German.
    'Kondensatablauf verstopft',
    'Fernbedienung defekt',
    'Sicherung gefallen',
    'kein Fehler gefunden',
    'Lüfter klappert',
    'nicht am Kältekreis, Platine defekt',
    'kein Kältemittelverlust, Filter zu',
    'Marder hat Kabel angebissen',
    // French.
    'évacuation des condensats bouchée',
    'fuite d’eau au bac',
    'télécommande hors service',
    'disjoncteur déclenché',
    'aucune fuite, filtre encrassé',
    'aucune anomalie',
    'ce n’est pas le circuit frigorifique',
    // Spanish.
    'desagüe atascado',
    'fuga de agua del desagüe',
    'mando sin pilas',
    'sin fugas, ventilador roto',
    'ninguna avería',
    'carga correcta, filtro sucio',
  ])('%s: of something else', (text) => {
    expect(found(text)).toMatchObject({ cause: 'other', by: 'cause-found' });
  });

  test.each([
    // Denied.
    'no leak found',
    'no leaks or moisture found',
    'no sign of any leak at the flares',
    'no refrigerant lost',
    'leaks: none',
    'leak? None found',
    'leak test ok',
    'leak not found',
    'flares tight',
    'flares not leaking',
    'charge ok',
    'without leaks',
    'system is leak-free',
    'isn’t leaking',
    '0 leaks',
    'added 0.0 kg refrigerant',
    'keine Undichtigkeit festgestellt',
    'Leck wurde nicht gefunden',
    'weder Leck noch Feuchtigkeit im System',
    'Füllmenge in Ordnung',
    'pas de fuite',
    'fuite non trouvée',
    'charge conforme',
    'no hay fugas',
    'sin pérdidas de gas',
    'carga correcta',
    // By itself, years after.
    'leak in the evaporator coil, factory weld',
    'factory joint in the coil leaking',
    'coil leak, topped up',
    'corroded flare, leaking',
    'Leck am Verdampfer',
    'fuite sur l’échangeur',
    'fuga en el serpentín por corrosión',
    'compressor seized',
    'reversing valve stuck',
    // No such words.
    'information leaflet handed over',
    'charger replaced',
    'no charge to the customer',
    'acidity of the soil',
    'surcharge for the weekend',
    'rustling',
    'visited',
    '漏れ',
    'утечка',
    '…?!',
    '',
  ])('"%s": unknown', (text) => {
    expect(found(text).cause).toBe('unknown');
  });

  test('is told by its words as they stand in the text', () => {
    expect(found('Drain blocked,\nalso LOW on\tCharge.').words).toBe('LOW on\tCharge');
    expect(found('Gerät: Wärmetauscher Leckage').words).toBe('Leckage, Wärmetauscher');
    expect(found('la Télécommande').words).toBe('Télécommande');
    expect(found('visited')).toEqual({ cause: 'unknown', by: 'nothing', words: '' });
  });

  test('goes before refrigerant added, and that before what was said', () => {
    const all = { cause_found: 'fan dead', refrigerant_added_kg: 0.3, reason: 'refrigerant leak' };
    expect(callbackCause(all)).toEqual({ cause: 'other', by: 'cause-found', words: 'fan' });
    expect(callbackCause({ ...all, cause_found: 'coil leak' })).toMatchObject({ cause: 'unknown', by: 'cause-found' });
    expect(callbackCause({ ...all, cause_found: 'seen to' })).toEqual({
      cause: 'commissioning',
      by: 'refrigerant-added',
      words: '',
    });
    for (const refrigerant_added_kg of [0, null, undefined, Number.NaN])
      expect(callbackCause({ cause_found: null, refrigerant_added_kg, reason: all.reason })).toEqual({
        cause: 'commissioning',
        by: 'reason',
        words: 'refrigerant leak',
      });
  });

  test('refutes who rang about a leak, but not who rang about something else', () => {
    const cause_found = 'no leak found';
    expect(callbackCause({ cause_found, reason: 'refrigerant leak' })).toMatchObject({
      cause: 'unknown',
      by: 'nothing',
    });
    expect(callbackCause({ cause_found, reason: 'rattling noise' })).toMatchObject({ cause: 'other', by: 'reason' });
    expect(callbackCause({ cause_found, refrigerant_added_kg: 0.2 })).toMatchObject({ cause: 'commissioning' });
  });
});
