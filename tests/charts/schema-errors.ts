import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { Ajv } from 'ajv';

const schemaPath = createRequire(import.meta.url).resolve('vega-lite/vega-lite-schema.json');
const validate = new Ajv({ strict: false, validateFormats: false }).compile(
  JSON.parse(readFileSync(schemaPath, 'utf8')),
);

/** What of a chart is not valid Vega-Lite. */
export function schemaErrors(chart: unknown): string[] {
  validate(chart);
  return (validate.errors ?? []).map(({ instancePath, message }) => `${instancePath}: ${message}`);
}
