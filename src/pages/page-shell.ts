import { createHash } from 'node:crypto';
import { unitsFrom } from '../units/in-units.ts';
import type { UnitSystem } from '../units/display.ts';
import { inDateStyle } from './date-style.ts';
import { Html, html, scriptJson } from './html.ts';
import { PageCharts } from './page-charts.ts';
import type { PageContent } from './page-content.ts';
import { pageScript } from './page-script.ts';
import { pageStyles } from './page-styles.ts';
import { vegaScripts } from './vega-scripts.ts';
import { wovenUnits } from './woven-units.ts';

/**
 * A whole page in one file: works offline, loads nothing, and runs only the scripts whose hashes its own policy names.
 *
 * @returns the HTML document; equal input, equal bytes
 */
export async function pageShell({ title, description, reader, places, body }: PageContent): Promise<string> {
  const charts = new PageCharts();
  const [first, other] = unitsFrom(reader.units);
  const inReadersDates = (text: string): string => inDateStyle(text, reader.dates);
  const one = { units: first, body: await body(first, charts) };
  const two = { units: other, body: await body(other, charts) };
  const woven = wovenUnits(one, two, inReadersDates);
  const hasUnits = one.body.source !== two.body.source;
  const hasCharts = charts.specs.length > 0;
  const scripts = [...(hasCharts ? vegaScripts() : []), pageScript].map((script) => script.replaceAll('\r\n', '\n'));
  const styles = `${pageStyles}\n${charts.styles}\n`;
  const policy = [
    "default-src 'none'",
    `script-src ${scripts.map(hashSource).join(' ')}`,
    `style-src ${hashSource(styles)}`,
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return html`<!doctype html>
<html lang="en" data-units="${first}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<meta name="description" content="${inReadersDates(description)}">
<link rel="icon" href="data:,">
<title>${inReadersDates(title)}</title>
<style>${new Html(styles)}</style>
</head>
<body>
${(places !== undefined || hasUnits) && html`<nav class="top" aria-label="Pages and units">${places ?? null}${hasUnits && unitsChoice(first)}</nav>`}
${woven}
${hasCharts && html`<script type="application/json" id="charts">${scriptJson(charts.specs)}</script>`}
${charts.rows.size > 0 && html`<script type="application/json" id="tables">${scriptJson(charts.tables)}</script>`}
${scripts.map((script) => html`<script>${new Html(script)}</script>\n`)}</body>
</html>
`.source;
}

const unitWords: Readonly<Record<UnitSystem, string>> = { ip: 'microns, °F, oz', si: 'Pa, °C, kg' };

/** Shown by the page's script alone, since nothing switches without it. */
function unitsChoice(first: UnitSystem): Html {
  return html`<fieldset class="units"><legend>Units</legend>${(['ip', 'si'] as const).map(
    (units) =>
      html`<label><input type="radio" name="units" value="${units}" autocomplete="off"${units === first && html` checked`}>${unitWords[units]}</label>`,
  )}</fieldset>`;
}

const hashSource = (text: string): string => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;
