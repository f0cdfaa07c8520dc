import { createHash } from 'node:crypto';
import { Html, html, scriptJson } from './html.ts';
import type { PageCharts } from './page-charts.ts';
import { pageStyles } from './page-styles.ts';
import { vegaScripts } from './vega-scripts.ts';

export interface PageShellOptions {
  readonly title: string;
  readonly description: string;
  readonly body: Html;
  readonly charts: PageCharts;
}

/**
 * A whole page in one file: works offline, loads nothing, and runs only the scripts whose hashes its own policy names.
 *
 * @returns the HTML document; equal input, equal bytes
 */
export function pageShell({ title, description, body, charts }: PageShellOptions): string {
  const scripts = charts.specs.length === 0 ? [] : vegaScripts().map((script) => script.replaceAll('\r\n', '\n'));
  const styles = `${pageStyles}\n${charts.styles}\n`;
  const policy = [
    "default-src 'none'",
    `script-src ${scripts.length === 0 ? "'none'" : scripts.map(hashSource).join(' ')}`,
    `style-src ${hashSource(styles)}`,
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
  ].join('; ');
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<meta name="referrer" content="no-referrer">
<meta name="description" content="${description}">
<link rel="icon" href="data:,">
<title>${title}</title>
<style>${new Html(styles)}</style>
</head>
<body>
${body}
${scripts.length > 0 && html`<script type="application/json" id="charts">${scriptJson(charts.specs)}</script>`}
${scripts.map((script) => html`<script>${new Html(script)}</script>\n`)}</body>
</html>
`.source;
}

const hashSource = (text: string) => `'sha256-${createHash('sha256').update(text, 'utf8').digest('base64')}'`;
