/** One word and what this project means by it. */
export interface GlossaryEntry {
  readonly word: string;
  readonly meaning: string;
}

/** The words of the work, in the order in which a job meets them. Names in code, columns and pages follow them. */
export const glossary: readonly GlossaryEntry[] = [
  { word: 'job', meaning: 'A single visit by a technician, with or without a crew, to a single system.' },
  { word: 'reading', meaning: 'What the instruments showed at one moment: a row with a time.' },
  {
    word: 'pressure test',
    meaning: 'The standing test with dry nitrogen: filled, left alone, and read again after a while.',
  },
  {
    word: 'standing hold',
    meaning:
      'A stretch of a pressure test in which the nitrogen is shut in. A test in stages has several; the last one at full pressure that is as long as asked judges.',
  },
  {
    word: 'settling',
    meaning: 'What the pressure does in the first minutes after a filling, while the gas takes the pipe’s temperature.',
  },
  {
    word: 'corrected drop',
    meaning: 'How far the pressure of a standing hold fell beyond what the temperature of the pipe explains.',
  },
  { word: 'pull-down', meaning: 'The pump is connected and the pressure falls.' },
  { word: 'hold', meaning: 'Of a vacuum: the pump is still connected and the pressure stays at or under the target.' },
  {
    word: 'isolation',
    meaning: 'The valve to the pump is shut. Nothing takes gas away any more, so the pressure can only climb.',
  },
  {
    word: 'rise test',
    meaning: 'Watching the pressure during the isolation. Crews also call it a decay test and mean the same.',
  },
  {
    word: 'break',
    meaning: 'Somebody raises the pressure deliberately, with nitrogen to sweep or with refrigerant to charge.',
  },
  {
    word: 'equalisation',
    meaning:
      'The quick step right after the valve shuts, while the pressure levels out between the gauge and the rest.',
  },
  { word: 'outgassing', meaning: 'Oil and walls give off gas they had taken up, ever more slowly. It is not a leak.' },
  {
    word: 'shape',
    meaning:
      'What a rise is made of, as far as the curve tells: dry, settling, leak, moisture, mixed, undecided, or absent.',
  },
  { word: 'plateau', meaning: 'The pressure at which a rise levels off, a leak left aside.' },
  {
    word: 'stall',
    meaning: 'The pump is on and the pressure stands still: water boils off as fast as it is pumped away.',
  },
  {
    word: 'micron',
    meaning: 'The trade’s unit of vacuum: a thousandth of a millimetre of mercury, 0.133322368 Pa, absolute.',
  },
  {
    word: 'blindness',
    meaning: 'The smallest leak that a test of that length, on that volume, with that gauge could have shown.',
  },
  {
    word: 'absolute pressure',
    meaning: 'Counted from nothing at all. Every pressure in a table is absolute, and every vacuum.',
  },
  {
    word: 'gauge pressure',
    meaning:
      'Counted from the air around the gauge: psig, bar gauge. It needs the site’s barometer or altitude to become absolute.',
  },
  { word: 'weigh-in', meaning: 'Refrigerant goes into the system and a scale says how much.' },
  {
    word: 'hose residual',
    meaning: 'Refrigerant that has left the scale but stays in hoses and manifold, so the system never got it.',
  },
  {
    word: 'adder',
    meaning:
      'The mass of refrigerant that each further metre of line wants, past the length the factory charge covers.',
  },
  { word: 'slip', meaning: 'A known mistake in reckoning a charge that would explain the deviation.' },
  {
    word: 'stand',
    meaning:
      'A stretch over which the load on the charging scale does not change: one before the charge, one after it.',
  },
  {
    word: 'steady window',
    meaning: 'The stretch of a run test in which pressures and lines stand still; the last one judges.',
  },
  {
    word: 'pattern',
    meaning: 'What all readings of a run look like together, as a probability of each usual fault and of none.',
  },
  { word: 'run test', meaning: 'The system runs, and superheat and subcooling are read once they are steady.' },
  {
    word: 'bubble point',
    meaning: 'Where a liquid begins to boil. A blend boils over a range; its bubble point is the cold end of it.',
  },
  { word: 'dew point', meaning: 'Where a vapour begins to condense: for a blend, the warm end of that range.' },
  {
    word: 'superheat',
    meaning: 'How far the suction line is above the dew point at the suction pressure.',
  },
  { word: 'subcooling', meaning: 'How far the liquid line is below the bubble point at the liquid pressure.' },
  {
    word: 'facts',
    meaning: 'What was measured on a job or computed from it. No limit and no opinion enters.',
  },
  { word: 'check', meaning: 'One question about a job, with what it needs, its limits and its possible answers.' },
  {
    word: 'outcome',
    meaning:
      'The answer of a check: pass, suspect, fail, not-evaluated (the log cannot carry a judgement) or missing (there is nothing to judge).',
  },
  {
    word: 'finding',
    meaning: 'One outcome for one check and one job, with the message, the evidence and the limit that was applied.',
  },
  {
    word: 'policy',
    meaning:
      'A set of limits with a name and a version, each limit with its source. Every finding says which policy it comes from; the default, as-recorded, uses the job’s own targets where the record has them.',
  },
  {
    word: 'skill',
    meaning:
      'What the checks of one group show of somebody’s work; whether tests were made, and whether there is a log of each, are skills of their own.',
  },
  {
    word: 'job mix',
    meaning:
      'What makes findings likelier whoever does the job: refrigerant, kind of system and work, lines, weather, and what test and gauge can show.',
  },
  { word: 'expected', meaning: 'How many of just these jobs would be flagged if a usual person did them.' },
  {
    word: 'believed share',
    meaning: 'A share drawn to that of all, the more the fewer the jobs and the less people differ. Also: shrunken.',
  },
  {
    word: 'funnel',
    meaning: 'The limits between which a share lies by chance, the wider the fewer the jobs.',
  },
  {
    word: 'stands out',
    meaning:
      'More is found than expected, beyond chance, beyond how people usually differ, and with all comparisons counted in.',
  },
  {
    word: 'laid to',
    meaning:
      'Which explanation of an excess is ten times as likely as any without it: people, what they share, or both.',
  },
  {
    word: 'not separable',
    meaning: 'The jobs hold nothing that tells people from what they share, since the two hardly ever came apart.',
  },
  {
    word: 'change',
    meaning: 'A person, crew or fleet is no longer as the jobs before showed, dated with the job that set it off.',
  },
  {
    word: 'callback',
    meaning:
      'The customer rings again about a system. It is laid to the job that the source names, or to the latest work on that system before it, within a horizon.',
  },
  {
    word: 'commissioning callback',
    meaning:
      'One that the way the circuit was opened, dried, filled and closed could have caused, by what was found, added or said. The first of a job ends the watch over it.',
  },
  {
    word: 'follow-up visit',
    meaning:
      'A visit to a job that nobody had rung about. It hides the callback that it prevented, and is modelled so.',
  },
  {
    word: 'forerunner',
    meaning:
      'A finding whose jobs have callbacks sooner than others of the same person, all else on record alike, beyond chance.',
  },
  {
    word: 'open job',
    meaning: 'No callback yet, nothing done on its circuit since, and young enough for a callback to be laid to it.',
  },
  {
    word: 'watch list',
    meaning: 'The open jobs by the risk of a commissioning callback within the next days, the likeliest first.',
  },
  {
    word: 'look back',
    meaning: 'A list made of what was known on an earlier day, held against the callbacks that came after it.',
  },
  {
    word: 'coaching sheet',
    meaning:
      'The one to three skills of a person or crew in which the excess is largest and surest, with jobs that show it, what to practise, and what goes well.',
  },
  {
    word: 'opening, on hand',
    meaning: 'What is in the cylinders before the first and after the last day of a period, by their weights.',
  },
  {
    word: 'unexplained',
    meaning:
      'What a cylinder weighs less than it should, by the weighing before; below nothing where it weighs more. Told with its interval, and never why.',
  },
  {
    word: 'beyond the scale',
    meaning: 'Missing or too much by more than steps, placing and pulled hoses explain, one time in a thousand.',
  },
  {
    word: 'kept apart',
    meaning: 'What cannot be accounted, with the reason: it is listed, counts in no balance, and is never guessed.',
  },
  {
    word: 'full charge',
    meaning:
      'What an appliance holds in normal operation: by its maker, calculated, measured, or the middle of an established range.',
  },
  {
    word: 'leak rate, annualising',
    meaning:
      'What was added for a leak as a share of the full charge, over the days since refrigerant was added last (365 at most), as if it went on for a year.',
  },
  {
    word: 'leak rate, rolling',
    meaning:
      'All that was added for leaks within 365 days, or since the last successful follow-up verification, as a share of the full charge.',
  },
  { word: 'trigger', meaning: 'The leak rate above which a rule asks for a repair.' },
  {
    word: 'seasonal variance',
    meaning: 'Taken out for a season and put back within a year: no leak, as far as it is no more than was taken out.',
  },
  {
    word: 'vintage',
    meaning: 'Whose global warming potentials a mass is told by as CO₂e: IPCC AR4, AR5, AR6, or 40 CFR 84.',
  },
];
