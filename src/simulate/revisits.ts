import type { shop } from './shop.ts';
import type { System } from './system.ts';

/** A repair that a callback asks for. */
export interface Revisit {
  /** Day from which it can be done. */
  readonly dueDay: number;
  /** The job that it follows up, and its system. */
  readonly jobId: string;
  readonly systemId: string;
  readonly siteId: string;
  readonly district: (typeof shop.districts)[number];
  readonly system: System;
}

/** Repairs waiting for their day, first due first done. */
export class Revisits {
  readonly #byDay = new Map<number, Revisit[]>();
  readonly #ready: Revisit[] = [];
  #movedToDay = 0;

  add(revisit: Revisit): void {
    const day = Math.max(this.#movedToDay, Math.ceil(revisit.dueDay));
    const own = this.#byDay.get(day);
    if (own === undefined) this.#byDay.set(day, [revisit]);
    else own.push(revisit);
  }

  /** The next one that is due on that day or before; undefined where none is. */
  take(day: number): Revisit | undefined {
    for (; this.#movedToDay <= day; this.#movedToDay++) {
      this.#ready.push(...(this.#byDay.get(this.#movedToDay) ?? []));
      this.#byDay.delete(this.#movedToDay);
    }
    return this.#ready.shift();
  }
}
