import { describe, expect, test } from 'vitest';
import type { RevisitKind } from '../../src/checks/check.ts';
import { checkNamed, checks } from '../../src/checks/checks.ts';
import { bringText, revisitText } from '../../src/pages/revisit-text.ts';

/** Every kind, as the type has them. */
const kinds = Object.keys({
  leak: true,
  moisture: true,
  charge: true,
  running: true,
  record: true,
} satisfies Record<RevisitKind, true>) as RevisitKind[];

test('every kind is that of some check, and every check of the recording doubts the record', () => {
  expect(new Set(checks.map(({ revisit }) => revisit))).toEqual(new Set(kinds));
  for (const { group, revisit } of checks) expect(revisit === 'record').toBe(group === 'recording');
});

test.each([
  ['pressure-not-held', 'leak'],
  ['leaking', 'leak'],
  ['wet', 'moisture'],
  // Of 356 simulated jobs with such a rise 247 had water or outgassing, and 27 a leak of the circuit.
  ['rise-over-limit', 'moisture'],
  ['hold-short', 'moisture'],
  ['charge-off-target', 'charge'],
  ['subcooling-off', 'charge'],
  ['run-pattern', 'running'],
  ['copied-trace', 'record'],
] as const)('%s asks for %s', (id, kind) => {
  expect(checkNamed(id)?.revisit).toBe(kind);
});

describe.each(kinds)('%s', (kind) => {
  const { text, bring: things } = revisitText(kind);
  const bring = bringText([revisitText(kind)]);

  test('is two or three sentences, with no figure without its unit', () => {
    expect(text.match(/[.](?= [A-Z]|$)/g)?.length).toSatisfy((count: number) => count === 2 || count === 3);
    expect(text).toMatch(/^[A-Z].*\.$/);
    expect(text.match(/\d[\d.,]*(?! ?(?:psi|bar|µm|Pa|°F|K|kg|oz|min|h)\b)/g)).toBeNull();
  });

  test('puts pressure on with dry nitrogen through a regulator alone, and vents nothing', () => {
    if (/nitrogen/.test(text)) expect(text).toMatch(/dry nitrogen [a-z, ]*through a regulator/);
    expect(text.replaceAll(/dry nitrogen/g, '')).not.toContain('nitrogen');
    if (/pressure is put on/.test(text)) expect(text).toMatch(/never with oxygen/);
    expect(text.replaceAll(/never by venting|nothing is vented/g, '')).not.toMatch(/\bvent/);
  });

  test('what to bring is a short list, with a regulator and a relief wherever there is nitrogen', () => {
    expect(bring).toMatch(/^[a-z].*[^.]\.$/);
    expect(things.join(', ').length).toBeLessThanOrEqual(160);
    expect(bring.startsWith(things.join(', '))).toBe(true);
    expect(things.join(', ').split(/[,;] /).length).toBeGreaterThanOrEqual(5);
    if (bring.includes('nitrogen')) expect(things).toContain('dry nitrogen with regulator and relief device');
    expect(bring).not.toMatch(/oxygen/i);
  });

  test('what takes refrigerant out is rated for flammable ones, and so is what looks for it', () => {
    const rated = /; rated for flammable refrigerants where the system holds one\.$/;
    const isTouching = /recovery|detector|vacuum pump/i.test(things.join(', '));
    expect(rated.test(bring)).toBe(isTouching);
    // What is told to be recovered needs a machine, and a scale that keeps its cylinder from being overfilled.
    if (/recover/.test(text)) expect(bring).toMatch(/recovery machine/i);
    if (/recovery machine/i.test(bring)) expect(bring).toMatch(/cylinder.*scale|scale.*cylinder/);
  });

  test('never says that a system is safe', () => {
    expect(`${text} ${bring}`).not.toMatch(/\bsafe/i);
  });
});

test.each([
  ['leak', /detector and bubbles/, /Before anything is topped up/, /recovery/, /never with oxygen/],
  ['moisture', /recover/, /change the drier/, /evacuate again/, /rise/, /Never run the compressor in a vacuum/],
  ['charge', /^Airflow/, /superheat and subcooling at steady running/, /maker’s target/, /leak/],
  ['running', /^Airflow/, /steady/, /maker’s/],
  ['record', /Ask who was there/, /before anything is opened/],
] as const)('what counts for %s is told', (kind, ...parts) => {
  for (const part of parts) expect(revisitText(kind).text).toMatch(part);
});

test.each([
  ['leak', /detector/, /bubble solution/, /dry nitrogen/, /recovery machine/, /cylinder/],
  ['moisture', /vacuum pump/i, /micron gauge/, /drier/, /acid test/, /dry nitrogen/, /recovery machine/i],
  ['charge', /pipe clamps/, /psychrometer/, /tape measure/, /scale/],
  ['running', /air thermometers/, /clamp meter/, /filters/],
  ['record', /log of the job/, /clock/],
] as const)('what counts for %s is brought', (kind, ...parts) => {
  for (const part of parts) expect(bringText([revisitText(kind)])).toMatch(part);
});

test('a leak detector comes along wherever a charge that is short is among what may be wrong', () => {
  for (const kind of ['leak', 'charge', 'running'] as const) expect(revisitText(kind).bring).toContain('leak detector');
});

test('to several visits each thing is brought once, and what that asks of it is said once, at the end', () => {
  const visits = kinds.map(revisitText);
  const things = bringText(visits)
    .replace(/; rated for .*\.$/, '')
    .split(/, (?!units)/);
  expect(new Set(things).size).toBe(things.length);
  expect(new Set(things)).toEqual(new Set(visits.flatMap(({ bring }) => bring)));
  expect(bringText(visits).match(/rated for flammable/g)).toHaveLength(1);
  expect(bringText([revisitText('record')])).not.toContain('rated');
});
