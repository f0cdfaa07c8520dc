/**
 * What sort of thing went wrong with a log after it was read: a clock put ahead or back, rows left out, a sensor that hangs,
 * a range that ends too soon (or one value all along), a column in another unit, times in another unit.
 */
export type FaultKind = 'clock-ahead' | 'clock-back' | 'left-out' | 'hangs' | 'clipped' | 'unit' | 'time-unit';
