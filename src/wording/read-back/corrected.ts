import type { ItemReading, Reading } from '../../hearing/reading.js';

/** A reading with other items, and without the question in it, which was answered. */
export function readingWith(reading: Reading, items: readonly ItemReading[]): Reading {
  return { ...reading, act: items[0]?.act ?? 'note', items: [...items], question: null };
}
