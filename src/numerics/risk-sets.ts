/** Rows that are watched for one event each, over the time from when each is watched until it ends. */
export interface WatchedRows {
  /** Time after which each row is watched; absent: from the beginning. A row that ends no later was never watched. */
  readonly entries?: Float64Array;
  /** Time at which each row has its event, or is last watched. */
  readonly stops: Float64Array;
  /** 1 where a row ended with the event. */
  readonly events: Uint8Array;
  /** Rows of different strata are never held against each other; absent: one stratum. */
  readonly strata?: Int32Array;
}

/** What is told of a walk through the times of the events, the last first. Rows that were at risk of no event are left out. */
export interface RiskSetVisitor {
  /** A stratum with an event begins, with nobody in it. */
  begin?(stratum: number): void;
  /** A row belongs to all risk sets from here on, until it is taken out. */
  add(row: number): void;
  /** A row was not watched yet at the times that follow. */
  remove(row: number): void;
  /** The rows that had their event at this time, all of which are in the risk set. */
  events(time: number, rows: readonly number[]): void;
}

/** Rows of a stratum by their places among those sorted by stop. */
interface Span {
  readonly stratum: number;
  readonly from: number;
  readonly to: number;
}

/**
 * The risk sets of the events: who was watched when each happened. Sorted once, walked through as often as needed. A row that is last
 * watched when an event happens is at risk of it.
 *
 * @example
 * const atRisk = [];
 * let count = 0;
 * new RiskSets({ stops: Float64Array.of(2, 3, 1), events: Uint8Array.of(1, 0, 1) }).walk({
 *   add: () => (count += 1), remove: () => (count -= 1), events: () => atRisk.push(count),
 * });
 * atRisk // [2, 3]
 */
export class RiskSets {
  readonly #rows: WatchedRows;
  /** Rows that were watched, by stratum, the last to stop first. */
  readonly #byStop: Int32Array;
  /** The same, the last to enter first. */
  readonly #byEntry: Int32Array;
  /** By stratum with an event, its rows down to those that were at risk of the first event. */
  readonly #spans: readonly Span[];

  constructor(rows: WatchedRows) {
    this.#rows = rows;
    const { entries, stops } = rows;
    const watched = Int32Array.from({ length: stops.length }, (_, row) => row).filter(
      (row) => entries === undefined || entries[row] < stops[row],
    );
    this.#byStop = this.#sorted(watched, stops);
    this.#byEntry = entries === undefined ? this.#byStop : this.#sorted(watched, entries);
    this.#spans = this.#spansOf();
  }

  #sorted(watched: Int32Array, times: Float64Array): Int32Array {
    const { strata } = this.#rows;
    return watched
      .slice()
      .sort((a, b) => (strata === undefined ? 0 : strata[a] - strata[b]) || times[b] - times[a] || a - b);
  }

  walk(visitor: RiskSetVisitor): void {
    for (const { stratum, from, to } of this.#spans) {
      visitor.begin?.(stratum);
      this.#walkStratum(visitor, from, to);
    }
  }

  #spansOf(): Span[] {
    const { strata, stops, events } = this.#rows;
    const rows = this.#byStop;
    const spans: Span[] = [];
    for (let from = 0; from < rows.length; ) {
      const stratum = strata === undefined ? 0 : strata[rows[from]];
      let [end, to] = [from, from];
      for (; end < rows.length && (strata === undefined || strata[rows[end]] === stratum); end += 1)
        if (events[rows[end]] === 1 || (to > from && stops[rows[end]] === stops[rows[to - 1]])) to = end + 1;
      if (to > from) spans.push({ stratum, from, to });
      from = end;
    }
    return spans;
  }

  #walkStratum(visitor: RiskSetVisitor, from: number, to: number): void {
    const { entries, stops, events } = this.#rows;
    let left = from;
    for (let at = from; at < to; ) {
      const time = stops[this.#byStop[at]];
      const happened: number[] = [];
      for (; at < to && stops[this.#byStop[at]] === time; at += 1) {
        const row = this.#byStop[at];
        visitor.add(row);
        if (events[row] === 1) happened.push(row);
      }
      if (happened.length === 0) continue;
      if (entries !== undefined)
        for (; left < to && entries[this.#byEntry[left]] >= time; left += 1) visitor.remove(this.#byEntry[left]);
      visitor.events(time, happened);
    }
  }
}
