import { lexicon } from '../../trade/lexicon/load.js';
import type { ItemReading } from '../reading.js';
import type { Place } from '../../trade/terms.js';

/** Groups of things that are used everywhere: their names say what kind of thing goes in, not which. */
const GENERIC = new Set(['fasteners', 'bearings and seals', 'general']);

/** A part's own stretch, which is replaced with the whole: "valve stem worn, replace the valve". */
const OF_ONE_PIECE = / (stem|head|face|lobe|tip|pad|crown|skirt|land|journal|neck|seat face|tooth|spline)$/;

const tail = (name: string): string => name.split(/[ -]/).at(-1) ?? name;

/** Whether `fresh` names what takes the place of `old`: "screws … socket-headed screws", "head races … taper rollers". */
export function takesPlaceOf(old: string, fresh: string): boolean {
  if (old === fresh) return true;
  if (old.startsWith(`${fresh} `) && OF_ONE_PIECE.test(old)) return true;
  const [was, put] = [lexicon.byName(old), lexicon.byName(fresh)];
  const plain = put === undefined ? !fresh.includes(' ') : GENERIC.has(put.group);
  if (!plain) return false;
  const names = [old, ...(was?.also ?? [])];
  const called = [fresh, ...(put?.also ?? [])].map(tail);
  return names.some((name) => called.includes(tail(name)));
}

const agree = (a: readonly Place[], b: readonly Place[]): boolean =>
  a.length === 0 || b.length === 0 || b.every((place) => a.includes(place));

const faulty = (item: ItemReading): boolean =>
  item.conditions.some((condition) => condition !== 'good') || item.readings.length > 0;

/** Something new is wanted and nothing else is told of it. */
const isNew = (item: ItemReading): boolean =>
  item.act === 'finding' &&
  (item.remedy === 'replace' || item.remedy === 'make') &&
  item.conditions.length + item.readings.length === 0 &&
  item.outcome === null &&
  item.item === null;

/** The faulty thing that a new one is wanted for, where one alone can be meant: "cover screws butchered. Eight new socket screws". */
export function renewedBy(items: readonly ItemReading[], item: ItemReading): ItemReading | undefined {
  const { part } = item;
  if (part === null || !isNew(item)) return undefined;
  const meant = items.filter(
    (before) =>
      before.part !== null &&
      before.act === 'finding' &&
      before.remedy !== 'keep' &&
      before.cost === null &&
      faulty(before) &&
      agree(before.place, item.place) &&
      takesPlaceOf(before.part, part),
  );
  return meant.length === 1 ? meant[0] : undefined;
}
