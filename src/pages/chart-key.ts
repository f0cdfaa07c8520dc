import { Html, html } from './html.ts';

/** How a thing is drawn in a chart. */
export type KeyMark =
  | 'readings'
  | 'fine'
  | 'fitted'
  | 'steady'
  | 'plateau'
  | 'valve-off'
  | 'stall'
  | 'over'
  | 'accent-band'
  | 'grey-band'
  | 'dashed'
  | 'asked'
  | 'asked-solid'
  | 'dotted'
  | 'ink'
  | 'accent-dashed'
  | 'ink-dashed'
  | 'start'
  | 'accent-gap'
  | 'ink-gap'
  | 'disc'
  | 'square'
  | 'hollow-disc'
  | 'hollow-square'
  | 'none';

/** One line of a chart's key; `none` is a remark on what the chart leaves out. */
export interface KeyEntry {
  readonly mark: KeyMark;
  readonly text: string;
}

/** Small pictures of the marks, by classes that the style sheet colours. */
const swatches: Record<KeyMark, string> = {
  readings: '<path class="thick" d="M1 10L23 4"/>',
  fine: '<path class="faint" d="M1 10L23 4"/>',
  fitted: '<path class="thin" d="M1 10L23 4"/>',
  steady: '<path class="wedge" d="M1 12L23 1V12z"/><path class="thin dashed" d="M1 12L23 6"/>',
  plateau: '<rect class="level" x="1" y="3" width="22" height="8"/>',
  'valve-off': '<rect class="range" x="7" y="1" width="10" height="12"/>',
  stall: '<path class="stand" d="M1 7H23"/>',
  over: '<path class="over" d="M1 7H23"/>',
  'accent-band': '<rect class="level" x="1" y="1" width="22" height="12"/>',
  'grey-band': '<rect class="wedge" x="1" y="1" width="22" height="12"/>',
  dashed: '<path class="faint dashed" d="M1 7H23"/>',
  asked: '<path class="limit dashed" d="M1 7H23"/>',
  'asked-solid': '<path class="limit" d="M1 10L23 4"/>',
  dotted: '<path class="faint dotted" d="M1 10L23 4"/>',
  ink: '<path class="strong" d="M1 10L23 4"/>',
  'accent-dashed': '<path class="accent dashed" d="M1 10L23 4"/>',
  'ink-dashed': '<path class="thin dashed" d="M1 10L23 4"/>',
  start: '<path class="faint dashed" d="M12 0V14"/>',
  'accent-gap': '<path class="accent" d="M12 0V14"/>',
  'ink-gap': '<path class="thin" d="M12 0V14"/>',
  disc: '<circle class="disc" cx="12" cy="7" r="5"/>',
  square: '<rect class="square" x="7.5" y="2.5" width="9" height="9"/>',
  'hollow-disc': '<circle class="accent" cx="12" cy="7" r="5.5"/>',
  'hollow-square': '<rect class="thin" x="6.5" y="1.5" width="11" height="11"/>',
  none: '',
};

/** How the marks look, in the colours of a page. */
export const keyMarkStyles = `.key path,.key .accent,.key .thin{fill:none}.key .thick{stroke:var(--accent);stroke-width:3.5}.key .thin{stroke:var(--ink);stroke-width:1.5}
.key .faint{stroke:var(--muted);stroke-width:1.5}.key .dotted{stroke-dasharray:1.5 3}.key .limit{stroke:var(--fail);stroke-width:1.5}.key .dashed{stroke-dasharray:3 3}.key .wedge{fill:var(--muted);opacity:.3}.key .level{fill:var(--accent);opacity:.25}
.key .range{fill:var(--accent);fill-opacity:.2;stroke:var(--accent);stroke-dasharray:2 2}.key .over{stroke:var(--suspect);stroke-width:6}.key .stand{stroke:var(--ink);stroke-width:5}.key .strong{stroke:var(--ink);stroke-width:3}.key .accent{stroke:var(--accent);stroke-width:1.5}.key .disc{fill:var(--accent)}.key .square{fill:var(--ink)}`;

/** What the marks of a chart mean, with their figures: beside the chart, so that nothing overlaps in it. */
export function chartKey(entries: readonly KeyEntry[]): Html {
  return html`<ul class="key">${entries.map(({ mark, text }) => html`<li>${swatch(mark)}<span>${text}</span></li>`)}</ul>`;
}

function swatch(mark: KeyMark): Html | false {
  if (mark === 'none') return false;
  return html`<svg viewBox="0 0 24 14" aria-hidden="true">${keyMark(mark)}</svg>`;
}

/** A mark as SVG, 24 wide and 14 high. */
export function keyMark(mark: KeyMark): Html {
  return new Html(swatches[mark]);
}
