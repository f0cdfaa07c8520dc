/**
 * Memory for numbers that are wanted no longer than a call, made once for all calls.
 *
 * For passes over the readings of one job after another: fresh memory costs the collector as much again as the pass itself.
 * What was taken before is written over: nothing that outlives a call may lie in it.
 *
 * @example
 * const scratch = new Scratch();
 * scratch.take(3).length // 3
 */
export class Scratch {
  #memory = new Float64Array(0);
  #taken = this.#memory;

  /**
   * So many numbers, of any value.
   *
   * @throws RangeError for fewer than none
   */
  take(count: number): Float64Array {
    if (count < 0) throw new RangeError(`${count} numbers cannot be taken`);
    if (this.#taken.length === count) return this.#taken;
    if (this.#memory.length < count) this.#memory = new Float64Array(2 * count);
    this.#taken = this.#memory.subarray(0, count);
    return this.#taken;
  }
}
