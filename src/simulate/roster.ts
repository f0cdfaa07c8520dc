import type { Random } from '../numerics/random.ts';
import { type Technician, technicians } from './technicians.ts';

/** Who is free when: nobody is on two jobs at once, as long as there are people enough. */
export class Roster {
  readonly #busyUntilDay = new Map<string, number>();

  /** A technician who is free at that moment, by workload; anybody where nobody is. */
  draw(random: Random, day: number): Technician {
    const free = technicians.filter(({ technicianId }) => (this.#busyUntilDay.get(technicianId) ?? 0) <= day);
    const from = free.length > 0 ? free : technicians;
    const drawn = random.weighted(
      Object.fromEntries(from.map(({ technicianId, workload }) => [technicianId, workload])),
    );
    return from.find(({ technicianId }) => technicianId === drawn) ?? from[0];
  }

  /** Keeps a technician busy until that moment. */
  book(technicianId: string, untilDay: number): void {
    this.#busyUntilDay.set(technicianId, untilDay);
  }
}
