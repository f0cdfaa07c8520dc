import { join } from 'node:path';
import { expect, test } from 'vitest';
import { peopleNames } from '../../src/steps/people-names.ts';
import { ingestFiles, inStore, tempFolder } from '../store/temp-store.ts';

const people = `technician_id,display_name
T-0007,Bramble Gasket
"o'dell.k",Kettle O'Dell
12,Al Ember
tech+9?,
`;
const memberships = `technician_id,crew_id,from_on
T-0007,crew-bramble,2026-01-01
12,crew-alder,2026-01-01
`;

test.each([
  ['Bramble Gasket said so', 'P002 said so'],
  ['ask BRAMBLE, or gasket!', 'ask P002, or P002!'],
  ['(t-0007) was here; T-0007’s van', '(P002) was here; P002’s van'],
  ["Kettle O'Dell's helper", "P003's helper"],
  ["o’dell.k or o'dell.k", 'P003 or P003'],
  // Too short to be told from other words.
  ['al is all right, 12 times', 'al is all right, 12 times'],
  ['Ember glows; embers glow', 'P001 glows; embers glow'],
  ['brambles on the coil', 'brambles on the coil'],
  ['tech+9? knows', 'P004+9? knows'],
  ['', ''],
  ['日本語 Gasket', '日本語 P002'],
])('with codes "%s" becomes "%s"', async (text, coded) => {
  await inStore(join(tempFolder(), 'store'), async (store) => {
    await ingestFiles(store, { 'people.csv': people, 'memberships.csv': memberships });
    const names = await peopleNames(store, true);
    expect(names.inText(text)).toBe(coded);
    expect([names.technician('T-0007'), names.crew('crew-bramble'), names.crew('no crew')]).toEqual([
      'P002',
      'C002',
      'no crew',
    ]);
    const plain = await peopleNames(store, false);
    expect(plain.inText(text)).toBe(text);
    expect([plain.technician('T-0007'), plain.crew('crew-bramble')]).toEqual(['Bramble Gasket', 'crew-bramble']);
  });
});
