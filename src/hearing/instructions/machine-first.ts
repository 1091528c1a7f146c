/** A message that begins with the machine it is of, and what is said of it. */
export type MachineFirst = { machine: string; rest: string };

/** Short words of a title ('the', 'old', '350') name no machine. */
const WORD_AT_LEAST = 4;

/**
 * 'On the Ketterby: handed over', 'Ketterby, 12 done': the machine, by its title or by a word that is in no other title,
 * and the words after it. Null where no machine of the shop stands first.
 */
export function machineFirst(text: string, machines: readonly string[]): MachineFirst | null {
  const [, called, rest] =
    /^\s*(?:(?:on|for|about|re) )?(?:the )?(.{2,40}?)\s?[:,] +(.+)$/is.exec(text) ?? [];
  if (called === undefined || rest === undefined) return null;
  const said = called.toLowerCase();
  const named = machines.filter((title) => title.toLowerCase() === said);
  const byWord = machines.filter(
    (title) => said.length >= WORD_AT_LEAST && title.toLowerCase().split(/\s+/).includes(said),
  );
  const [only, ...more] = named.length > 0 ? named : byWord;
  return only === undefined || more.length > 0 ? null : { machine: only, rest };
}
