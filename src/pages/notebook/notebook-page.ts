import type { Config } from 'vega-lite';
import { chartConfig } from '../../charts/chart-config.ts';
import { pageColours } from '../../charts/chart-colours.ts';
import { cautions } from '../cautions.ts';
import { type Html, html } from '../html.ts';
import type { PageCharts } from '../page-charts.ts';
import type { PageContent, Reader } from '../page-content.ts';
import { type NotebookOutput, type RunCell, wholeChart } from './notebook-output.ts';
import type { NotebookCell, NotebookParts, NotebookProse } from './notebook-parts.ts';
import { shownTable } from './shown-table.ts';

/** A notebook that was run. */
export interface NotebookPageData extends Pick<NotebookParts, 'lead' | 'parts'> {
  /** The name of its file. */
  readonly file: string;
  readonly title: string;
  readonly cells: readonly RunCell[];
}

/**
 * The page of a notebook: its prose, what its cells showed, and their code folded away. It says what the notebook says, in the units in which it
 * was run.
 */
export function notebookPage(data: NotebookPageData, reader: Reader): PageContent {
  const { title, lead } = data;
  return {
    title,
    description: lead ?? title,
    reader,
    body: (_, charts) => body(data, charts),
  };
}

async function body({ file, parts, cells }: NotebookPageData, charts: PageCharts): Promise<Html> {
  const shown: Html[] = [];
  for (const part of parts) shown.push('html' in part ? proseHtml(part) : await cellHtml(part, cells, charts));
  return html`<div class="page notebook"><main>
${shown}
${cautions}
<p class="quiet footer">Made by the notebook ${file}. What it says is what its cells reckon; their code is folded under each.</p>
</main></div>`;
}

const proseHtml = ({ html: prose }: NotebookProse): Html => prose;

async function cellHtml({ line, code }: NotebookCell, cells: readonly RunCell[], charts: PageCharts): Promise<Html> {
  const outputs: Html[] = [];
  for (const output of cells.find((cell) => cell.line === line)?.outputs ?? [])
    outputs.push(await outputHtml(output, charts));
  return html`${outputs}
<details class="code"><summary>code, line ${line}</summary><pre tabindex="0"><code>${code}</code></pre></details>
`;
}

async function outputHtml(output: NotebookOutput, charts: PageCharts): Promise<Html> {
  if (output.kind === 'sentence') return html`<p>${output.text}</p>`;
  if (output.kind === 'table') return shownTable(output);
  const { title, description, heightPx } = output;
  return charts.figure({
    name: 'notebook-chart',
    title,
    chart: wholeChart(output, notebookConfig),
    description,
    heightPx,
  });
}

/** The look of all charts; marks that say nothing of their colour are the measured thing, and a legend stands above. */
export const notebookConfig: Config = {
  ...chartConfig(pageColours),
  legend: {
    orient: 'top',
    title: null,
    labelColor: pageColours.ink,
    labelFontSize: 12,
    labelLimit: 240,
    symbolOpacity: 1,
    columns: { expr: 'width < 420 ? 1 : 4' },
  },
  header: { labelColor: pageColours.ink, titleColor: pageColours.muted },
  mark: { invalid: 'break-paths-show-path-domains', tooltip: null, color: pageColours.accent },
};
