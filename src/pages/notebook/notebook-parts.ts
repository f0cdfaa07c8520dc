import markdownIt, { type Token } from 'markdown-it';
import { Html, shownText } from '../html.ts';

/** Text between the cells of a notebook. */
export interface NotebookProse {
  readonly html: Html;
}

/** A cell of a notebook, and where it stands in the file. */
export interface NotebookCell {
  /** Line of its opening fence, from 1 on. */
  readonly line: number;
  /** As it is written. */
  readonly code: string;
}

/** A notebook taken apart. */
export interface NotebookParts {
  /** Its first heading, as text; null where it has none. */
  readonly title: string | null;
  /** The text under it, up to the first cell or the next paragraph; null where there is none. */
  readonly lead: string | null;
  readonly parts: readonly (NotebookProse | NotebookCell)[];
  /** Lines of cells within a list or a quotation, which nothing runs. */
  readonly notRun: readonly number[];
}

// Nothing of HTML gets through, and nothing is fetched: a page may not show pictures from elsewhere.
const reader = markdownIt({ html: false }).disable('image');

/**
 * A Markdown file as prose and cells. A cell is a fence of three backticks or more at the margin that says `ts`.
 *
 * @param markdown the file's text
 */
export function notebookParts(markdown: string): NotebookParts {
  const tokens = reader.parse(shownText(markdown), {});
  const lines = linesOf(markdown);
  const parts: (NotebookProse | NotebookCell)[] = [];
  const notRun: number[] = [];
  let prose: Token[] = [];
  const endProse = () => {
    if (prose.length > 0) parts.push({ html: new Html(reader.renderer.render(prose, reader.options, {})) });
    prose = [];
  };
  for (const token of tokens) {
    const isCell = token.type === 'fence' && /^ts(\s|$)/.test(token.info);
    const line = (token.map?.[0] ?? 0) + 1;
    if (isCell && token.level > 0) notRun.push(line);
    if (isCell && token.level === 0) {
      endProse();
      const length = token.content.split('\n').length - 1;
      parts.push({ line, code: lines.slice(line, line + length).join('\n') });
    } else prose.push(token);
  }
  endProse();
  return { title: textOf(tokens, 'h1'), lead: textOf(tokens, 'p'), parts, notRun };
}

/** The lines of a text, however they end. */
export function linesOf(text: string): string[] {
  return text.split(/\r\n|\n|\r/);
}

/** What the first heading or paragraph says. */
function textOf(tokens: readonly Token[], tag: 'h1' | 'p'): string | null {
  const at = tokens.findIndex((token) => token.tag === tag && token.nesting === 1);
  const said = tokens[at + 1]?.children?.map(({ type, content }) => (type === 'softbreak' ? ' ' : content)).join('');
  return at < 0 || said === undefined || said === '' ? null : said;
}
