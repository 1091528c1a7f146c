import type { ItemReading } from '../reading.js';

const faulty = (item: ItemReading): boolean =>
  item.act === 'finding' && item.conditions.some((condition) => condition !== 'good');

/** "eleven miles round the lanes, and the fork seal weeps": a ride on which a fault came out was no pass, unless that was said. */
export const ridesFailed = (items: readonly ItemReading[]): ItemReading[] =>
  items.map((item, at) =>
    item.act === 'tested' && item.part === null && item.outcome === null && items.slice(at + 1).some(faulty)
      ? { ...item, outcome: 'fail' as const }
      : item,
  );
