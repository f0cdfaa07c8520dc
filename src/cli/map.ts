import { existsSync } from 'node:fs';
import { DryholdError } from '../errors.ts';
import { writeWholeText } from '../store/whole-file.ts';
import { type AddCommand, type CommonOptions, say, sayJson } from './context.ts';
import { mapText } from './map-text.ts';

interface MapCommandOptions extends CommonOptions {
  readonly out?: string;
  readonly force?: boolean;
  readonly timeZone?: string;
}

/** `dryhold map`: a source map drafted for a file that nobody described. */
export const addMap: AddCommand = (program) => {
  program
    .command('map')
    .summary('draft a source map for a file of unknown layout')
    .description(
      'Looks at a file, finds its layout, columns, units and times, and drafts the map that "ingest --map" needs. Shows the first rows as they would come in, and lists what it was unsure of and what it leaves out. Nothing is taken in.',
    )
    .argument('<file>', 'CSV or other text with cells, JSON, NDJSON, .xlsx, Parquet, Arrow; also packed (.gz, .zip)')
    .option('--out <map>', 'write the map to this file; an existing one stays')
    .option('--force', 'write over an existing file')
    .option('--time-zone <zone>', 'where the clocks stood: America/Denver, -07:00; by default that of this machine')
    .addHelpText(
      'after',
      `
examples:
  dryhold map their-export.csv
  dryhold map their-export.csv --out their-map.json
  dryhold ingest their-export.csv --map their-map.json`,
    )
    .action(async (path: string, options: MapCommandOptions) => {
      const { out, force = false, timeZone } = options;
      if (out !== undefined && !force && existsSync(out))
        throw new DryholdError('bad-usage', {
          problem: `${out} is there already and stays as it is; name another file, or add --force`,
        });
      await requireZone(timeZone);
      const { draftFileMap } = await import('../steps/draft-map.ts');
      const zone = timeZone ?? Intl.DateTimeFormat().resolvedOptions().timeZone;
      const drafted = await draftFileMap(path, zone, timeZone !== undefined);
      const written = `${JSON.stringify(drafted.map, null, 2)}\n`;
      if (out !== undefined) await writeWholeText(out, written);
      if (options.json) {
        const { map, unsure, leftOut, preview, content, inPart } = drafted;
        sayJson({ map, unsure, preview, leftOut, content, inPart });
      } else say(mapText(drafted, path, out));
    });
};

async function requireZone(zone: string | undefined): Promise<void> {
  if (zone === undefined) return;
  const { isZone } = await import('../sources/draft/zone-name.ts');
  if (!isZone(zone))
    throw new DryholdError('bad-usage', { problem: `no time zone "${zone}"; such as America/Denver or -07:00` });
}
