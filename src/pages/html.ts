import { visibleText } from '../units/visible-text.ts';

/** Text that is already HTML; everything else is escaped on its way into a page. */
export class Html {
  readonly source: string;

  constructor(source: string) {
    this.source = source;
  }

  toString(): string {
    return this.source;
  }
}

/** What may stand in an `html` template: null and false are nothing, lists are joined. */
export type HtmlPart = Html | string | number | null | false | readonly HtmlPart[];

const entities: Record<string, string> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;', "'": '&#39;' };

/** What a browser shows as nothing, what is no character, or what turns the text after it round. */
const unshown = /(?![\t\n\r])[\p{Cc}\p{NChar}\u202a-\u202e\u2066-\u2069]/gu;

/**
 * HTML from a template; every value is escaped unless it is `Html` itself. Attribute values must stand in quotes.
 *
 * @example html`<p title="${'a"b'}">${'1 < 2'}</p>`.source // '<p title="a&quot;b">1 &lt; 2</p>'
 */
export function html(strings: TemplateStringsArray, ...parts: readonly HtmlPart[]): Html {
  return new Html(strings.reduce((text, string, index) => text + htmlOf(parts[index - 1] ?? null) + string));
}

function htmlOf(part: HtmlPart): string {
  if (part === null || part === false) return '';
  if (part instanceof Html) return part.source;
  if (typeof part === 'string' || typeof part === 'number') {
    return shownText(String(part)).replace(/[&<>"']/g, (character) => entities[character] ?? '');
  }
  return part.map(htmlOf).join('');
}

/**
 * A text as a page shows it: what a browser would show as nothing, or turn the text after it round by, is named instead.
 *
 * @example shownText('a\u202eb') // 'a\\u{202e}b'
 */
export function shownText(text: string): string {
  return text.toWellFormed().replaceAll(unshown, visibleText);
}

/**
 * JSON that can stand in a script element: no `<` is left, so no data can end the element or open a comment.
 *
 * @param value anything that JSON can carry
 */
export function scriptJson(value: unknown): Html {
  return new Html(
    JSON.stringify(value).replace(/[<>\u2028\u2029]/g, (c) => `\\u${c.charCodeAt(0).toString(16).padStart(4, '0')}`),
  );
}
