const ENDING = '.tar.gz';
const DAY = /^\d{4}-\d{2}-\d{2}$/;

/** The file name of a shop's back-up of a local day, `YYYY-MM-DD`. */
export function backUpName(shop: string, day: string): string {
  return `benchhand-${shop}-${day}${ENDING}`;
}

/** The days of which there is a back-up of the shop among file names, oldest first; other files are passed over. */
export function daysKept(names: readonly string[], shop: string): string[] {
  const start = `benchhand-${shop}-`;
  return names
    .filter((name) => name.startsWith(start) && name.endsWith(ENDING))
    .map((name) => name.slice(start.length, -ENDING.length))
    .filter((day) => DAY.test(day))
    .sort();
}

/** Whether a name is what a back-up of the shop is called while it is written. */
export function isUnfinished(name: string, shop: string): boolean {
  const [whole = '', part] = name.split('.part-');
  return part !== undefined && daysKept([whole], shop).length === 1;
}
