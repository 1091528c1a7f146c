import type { Act, ItemReading } from '../reading.js';

const ALIKE: ReadonlySet<Act> = new Set<Act>(['ordered', 'sent', 'back', 'promised']);

/** The one value that is told among all of them, null where none or several are. */
function onlyOne<T>(values: readonly (T | null)[]): T | null {
  const told = [...new Set(values.filter((value): value is T => value !== null))];
  return told.length === 1 ? (told[0] ?? null) : null;
}

/** "Ordered two pistons and a set of rings, Arkle, by the 24th": one firm and one day, said once, are of all that was done alike. */
export function sharedByAll(items: readonly ItemReading[]): ItemReading[] {
  const act = onlyOne(items.map((item) => item.act));
  if (act === null || items.length < 2 || !ALIKE.has(act)) return [...items];
  const supplier = onlyOne(items.map((item) => item.supplier));
  const due = act === 'back' ? null : onlyOne(items.map((item) => item.due));
  return items.map((item) => ({ ...item, supplier: item.supplier ?? supplier, due: item.due ?? due }));
}
