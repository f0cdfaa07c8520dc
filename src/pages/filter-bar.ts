import { monthsEach, type TimeGrain } from './coarse-rows.ts';
import { monthText } from './day-text.ts';
import { type Html, html } from './html.ts';

/** What a page's charts can be narrowed to. A list with fewer than two entries is not offered. */
export interface FilterChoices {
  readonly crews: readonly string[];
  readonly technicians: readonly string[];
  readonly refrigerants: readonly string[];
  /** YYYY-MM, in order: months, or the first months of quarters or years. */
  readonly months: readonly string[];
  /** Which of these they are. */
  readonly grain: TimeGrain;
  /** Skills by id, one of which is always chosen, and which at first; absent where the charts are not about one. */
  readonly skills?: {
    readonly all: readonly { readonly id: string; readonly title: string }[];
    readonly first: string;
  };
  /** What is counted beside the filters, if anything: rows of a table of the page, or what stands in a field of it. */
  readonly counted?: { readonly table: string; readonly field?: string; readonly noun: string };
  /** What a reader should know of the choices, such as who cannot be chosen. */
  readonly note?: string;
}

/**
 * The filters of a page: each choice acts on all of its charts at once. They work by the page's script, and are not shown without it; where
 * nothing can be chosen there are none.
 */
export function filterBar({
  crews,
  technicians,
  refrigerants,
  months,
  grain,
  skills,
  counted,
  note,
}: FilterChoices): Html {
  if (skills === undefined && [crews, technicians, refrigerants, months].every(({ length }) => length < 2))
    return html``;
  const plain = (words: readonly string[]): Option[] => words.map((word) => ({ value: word, text: word }));
  const times = (each: readonly string[]): Option[] => each.map((month) => ({ value: month, text: monthText(month) }));
  const ends = months.map((month) => lastMonth(month, grain));
  return html`<form class="filters needs-script" id="filters" aria-label="Filters for all charts of this page">
<p class="filters-title">Show in all charts</p>
${
  skills !== undefined &&
  select(
    'skill',
    'Skill',
    skills.all.map(({ id, title }) => ({ value: id, text: title })),
    { first: skills.first },
  )
}
${crews.length > 1 && select('crew', 'Crew', plain(crews), { none: 'all crews' })}
${technicians.length > 1 && select('technician', 'Technician', plain(technicians), { none: 'all technicians' })}
${refrigerants.length > 1 && select('refrigerant', 'Refrigerant', plain(refrigerants), { none: 'all refrigerants' })}
${months.length > 1 && [select('from', 'From', times(months), { none: 'the beginning' }), select('to', 'To', times(ends), { none: 'the end' })]}
<div class="filters-end"><button type="reset">Show all</button>${counted !== undefined && html`<output aria-live="polite" data-table="${counted.table}"${counted.field !== undefined && html` data-field="${counted.field}"`} data-noun="${counted.noun}"></output>`}</div>
<p class="quiet">Texts and tables stay those of all jobs.${note !== undefined && ` ${note}`}</p>
</form>`;
}

/** The last month of a quarter or year; of a month it is that month. */
function lastMonth(first: string, grain: TimeGrain): string {
  return `${first.slice(0, 5)}${String(Number(first.slice(5, 7)) + monthsEach[grain] - 1).padStart(2, '0')}`;
}

interface Option {
  readonly value: string;
  readonly text: string;
}

/** Either everything may be chosen, or one of the options always is. */
type Choice = { readonly none: string } | { readonly first: string };

function select(name: string, title: string, options: readonly Option[], choice: Choice): Html {
  const first = 'first' in choice ? choice.first : '';
  return html`<label>${title}<select name="${name}" autocomplete="off" data-usual="${first}">${'none' in choice && html`<option value="">${choice.none}</option>`}${options.map(({ value, text }) => html`<option value="${value}"${value === first && html` selected`}>${text}</option>`)}</select></label>`;
}
