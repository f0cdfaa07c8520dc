import type { FilterableRow } from '../charts/chart-filter.ts';
import type { CoarseRows } from './coarse-rows.ts';
import type { FilterChoices } from './filter-bar.ts';
import type { JobCells } from './service-manager-data.ts';
import { sortedWords } from './sorted-words.ts';
import { countText } from './share-text.ts';

/**
 * What the charts of a page can be narrowed to.
 *
 * @param cells of which charts are made, and how many people there are in all
 * @param who are told apart where not everybody is, in words
 */
export function chartChoices(
  cells: CoarseRows<FilterableRow> & Pick<JobCells, 'crews' | 'technicians'>,
  who: string,
): Omit<FilterChoices, 'counted'> {
  const words = (of: (row: FilterableRow) => string): string[] => sortedWords(cells.rows.map(of));
  const [crews, technicians] = [words(({ crew }) => crew), words(({ technician }) => technician)];
  const left = [
    ...(cells.crews > crews.length ? [`${crews.length} of ${countText(cells.crews, 'crew')}`] : []),
    ...(cells.technicians > technicians.length
      ? [`${technicians.length} of ${countText(cells.technicians, 'technician')}`]
      : []),
  ];
  const notes = [
    ...(left.length === 0 ? [] : [`To choose from: ${left.join(', ')}, ${who}.`]),
    ...(cells.grain === 'month' ? [] : [`Of so many the charts tell time by ${cells.grain}.`]),
  ];
  return {
    crews,
    technicians,
    refrigerants: words(({ refrigerant }) => refrigerant),
    months: words(({ month }) => month),
    grain: cells.grain,
    ...(notes.length === 0 ? {} : { note: notes.join(' ') }),
  };
}
