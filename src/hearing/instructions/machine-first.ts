import { namesOf } from '../machines-named.js';

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

/** A machine named somewhere in a text, and the text with 'it' in its place, then without it. */
export type MachineWithin = { machine: string; without: [it: string, none: string] };

/**
 * 'Handed the Ketterby over', 'that's the Ketterby stripped': the one machine that the text names (`namesOf`). Null where it
 * names none, or several.
 */
export function machineWithin(text: string, machines: readonly string[]): MachineWithin | null {
  const words = text.trim().split(/\s+/);
  const named = machines.flatMap((machine) => {
    const spans = namesOf(machine, machines).map((name) => spanOf(words, name.toLowerCase().split(/\s+/)));
    const span = spans.find((each) => each !== null);
    return span ? [{ machine, span }] : [];
  });
  const [only, ...more] = named;
  if (only === undefined || more.length > 0) return null;
  const { machine, span } = only;
  const article = words[span.from - 1]?.toLowerCase() === 'the' ? 1 : 0;
  const from = span.from - article;
  const leads = /^(?:on|for|of)$/i.test(words[from - 1] ?? '') ? 1 : 0;
  const rest = words.slice(span.to);
  return {
    machine,
    without: [
      [...words.slice(0, from), 'it', ...rest].join(' '),
      [...words.slice(0, from - leads), ...rest].join(' '),
    ],
  };
}

function spanOf(words: readonly string[], name: readonly string[]): { from: number; to: number } | null {
  const bare = words.map((word) => word.toLowerCase().replace(/(?:[’']s)?[.,;:!?]*$/, ''));
  const from = bare.findIndex((_, at) => name.every((word, offset) => bare[at + offset] === word));
  return from < 0 ? null : { from, to: from + name.length };
}
