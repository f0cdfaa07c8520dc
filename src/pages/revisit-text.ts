import type { RevisitKind } from '../checks/check.ts';

/** What is checked on site: in a few words, and in full; and what is taken along for it. */
export interface RevisitText {
  readonly title: string;
  readonly text: string;
  /** What a licensed technician takes along, beside the tools of every day. */
  readonly bring: readonly string[];
}

/** By what may be wrong. */
const texts: Readonly<Record<RevisitKind, RevisitText>> = {
  leak: {
    title: 'search for a leak',
    text: 'Before anything is topped up, search for a leak with a detector and bubbles: flares, brazed joints, service valves, cores and caps first, and wherever oil shows. What must be opened is emptied by recovery, never by venting; pressure is put on with dry nitrogen alone, through a regulator and with a relief device, within what the nameplates allow, and never with oxygen or air. A leak that was found is mended, and the mend tested, before the charge is weighed in anew.',
    bring: [
      'leak detector',
      'bubble solution',
      'recovery machine and cylinder',
      'scale',
      'dry nitrogen with regulator and relief device',
    ],
  },
  moisture: {
    title: 'look for water and air',
    text: 'Look for signs of water and air while it runs: a head pressure above what the outdoor air and the load call for, a metering device that freezes and frees, acid in the oil where a sample can be taken. Where they show, recover the refrigerant, change the drier, break the vacuum with dry nitrogen through a regulator, evacuate again and watch the rise before it is charged. Never run the compressor in a vacuum.',
    bring: [
      'recovery machine and cylinder',
      'scale',
      'vacuum pump and micron gauge',
      'new drier',
      'acid test',
      'dry nitrogen with regulator and relief device',
    ],
  },
  charge: {
    title: 'check the charge',
    text: 'Airflow, filters and coils first, since both figures lie without them; then read superheat and subcooling at steady running, and hold them against the maker’s target. Ask of every reading that is off whether a leak explains it, and search for one before anything is added. A charge that is wrong, or a refrigerant that is not the one on the nameplate, is recovered and weighed in anew, with the lines measured; nothing is vented.',
    bring: [
      'gauges and pipe clamps',
      'psychrometer',
      'tape measure',
      'scale',
      'recovery machine and cylinder',
      'leak detector',
    ],
  },
  running: {
    title: 'read the running system',
    text: 'Airflow, filters and coils first; then let it run until it is steady, and write down pressures, superheat, subcooling, the air in and out and the current of the compressor in the same minute. Hold them against the maker’s figures, and ask of each likely fault what speaks for it and against it. No refrigerant is added or taken out on one reading.',
    bring: [
      'gauges and pipe clamps',
      'psychrometer',
      'air thermometers',
      'clamp meter',
      'clean filters',
      'leak detector',
    ],
  },
  record: {
    title: 'ask what the log does not show',
    text: 'The record is in doubt, which says nothing of the system either way. Ask who was there what the log does not show, and look for the paper, the photos and the scale’s own memory. Read the running system, superheat and subcooling at steady running with airflow right, before anything is opened.',
    bring: [
      'findings and log of the job',
      'gauges and pipe clamps',
      'psychrometer',
      'logger whose clock, units and job number were looked at beforehand',
    ],
  },
};

/** What a licensed technician checks on site, on a charged system, where a check flagged its commissioning. */
export function revisitText(kind: RevisitKind): RevisitText {
  return texts[kind];
}

/** What touches refrigerant, and so must stand flammable ones. */
const touching = ['leak detector', 'recovery machine and cylinder', 'vacuum pump and micron gauge'];

/** What to bring to some visits at once, each thing once. */
export function bringText(visits: readonly RevisitText[]): string {
  const things = [...new Set(visits.flatMap(({ bring }) => bring))];
  const rated = things.some((thing) => touching.includes(thing))
    ? '; rated for flammable refrigerants where the system holds one'
    : '';
  return `${things.join(', ')}${rated}.`;
}
