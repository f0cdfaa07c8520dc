import type { RevisitKind } from '../checks/check.ts';

/** What to check on site, by what may be wrong: in a few words, and in full. */
const texts: Readonly<Record<RevisitKind, { readonly title: string; readonly text: string }>> = {
  leak: {
    title: 'search for a leak',
    text: 'Search for a leak before anything is topped up: detector and bubbles at flares, service valves, cores and brazed joints, and look for oil. Where it must be emptied, recover the refrigerant; put pressure on with dry nitrogen from a regulator only, never oxygen.',
  },
  moisture: {
    title: 'look for water and air',
    text: 'Look for water and air: a head pressure above what outdoor air and load call for, an expansion valve that freezes and frees, an acid test of the oil where one can be taken. If it looks so, recover, change the drier, and evacuate again with a rise test; never run the compressor in a vacuum.',
  },
  charge: {
    title: 'check the charge',
    text: 'First airflow, filter and coil; then read superheat and subcooling at steady running against the maker’s targets, and measure the lines anew. If the charge is off, look for a leak, then recover and weigh in anew rather than adjust by feel.',
  },
  running: {
    title: 'read the running system',
    text: 'First airflow, filter and coil; then read pressures, superheat, subcooling and the air’s temperature drop at steady running, and write them down for the next visit.',
  },
  record: {
    title: 'ask what the log does not show',
    text: 'The record is in doubt, so ask who was there what the log does not show, and read the running system before anything is opened.',
  },
};

/** What a licensed technician checks on site where a check flagged the commissioning. */
export function revisitText(kind: RevisitKind): { readonly title: string; readonly text: string } {
  return texts[kind];
}
