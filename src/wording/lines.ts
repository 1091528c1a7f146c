import type { Answer, Passage } from './answer.js';

/** One line of a message: plain text, or runs of it with emphasis. */
export type Line = string | readonly Passage[];

/** The chat takes 4,096 characters a message (Bot API documentation); some are kept free for what is put before or after. */
const MESSAGE_AT_MOST = 3_900;

export const bold = (text: string): Passage => ({ bold: text });

/** Lines as one message; those that no longer fit are counted at its end. */
export function message(lines: readonly Line[], buttons: Answer['buttons'] = []): Answer {
  return { text: asText(fitting(lines)), buttons: buttons.filter((row) => row.length > 0) };
}

function asText(lines: readonly Line[]): Passage[] {
  return lines.flatMap((line, index) => (index === 0 ? passagesOf(line) : ['\n', ...passagesOf(line)]));
}

const passagesOf = (line: Line): readonly Passage[] => (typeof line === 'string' ? [line] : line);

function lengthOf(line: Line): number {
  return passagesOf(line).reduce(
    (sum, passage) => sum + (typeof passage === 'string' ? passage : passage.bold).length,
    1,
  );
}

function fitting(lines: readonly Line[]): readonly Line[] {
  const total = lines.reduce((sum, line) => sum + lengthOf(line), 0);
  if (total <= MESSAGE_AT_MOST) return lines;
  const kept: Line[] = [];
  let length = 0;
  for (const line of lines) {
    if (length + lengthOf(line) > MESSAGE_AT_MOST) break;
    kept.push(line);
    length += lengthOf(line);
  }
  if (kept.length === 0) return lines.slice(0, 1).map((line) => clipped(plainOf(line), MESSAGE_AT_MOST));
  return [...kept, `and ${lines.length - kept.length} more`];
}

/** A line without its emphasis. */
export function plainOf(line: Line): string {
  return passagesOf(line)
    .map((passage) => (typeof passage === 'string' ? passage : passage.bold))
    .join('');
}

/** At most so many lines of a list, and how many there are besides. */
export function listed(lines: readonly Line[], most: number): Line[] {
  return lines.length <= most
    ? [...lines]
    : [...lines.slice(0, most - 1), `and ${lines.length - most + 1} more`];
}

/** Words in a sentence: 'a, b and c'. Of many, the first few and how many more. */
export function joined(words: readonly string[], most = 12): string {
  const shown =
    words.length > most ? [...words.slice(0, most - 1), `${words.length - most + 1} more`] : [...words];
  const last = shown.pop();
  if (last === undefined) return '';
  return shown.length === 0 ? last : `${shown.join(', ')} and ${last}`;
}

/** A list in groups of what has the same key, each in the order first met. */
export function grouped<T>(list: readonly T[], keyOf: (each: T) => string): T[][] {
  const groups = new Map<string, T[]>();
  for (const each of list) groups.set(keyOf(each), [...(groups.get(keyOf(each)) ?? []), each]);
  return [...groups.values()];
}

/** People's words, shortened where they are long. */
export function clipped(text: string, most: number): string {
  const characters = [...text.trim()];
  return characters.length <= most
    ? text.trim()
    : `${characters
        .slice(0, most - 1)
        .join('')
        .trimEnd()}…`;
}

/** People's words between quotation marks; empty where there are none. */
export function quoted(text: string, most = 300): string {
  return text.trim() === '' ? '' : `“${clipped(text, most)}”`;
}

export function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** A clause as a sentence, with capital and full stop. */
export function sentence(text: string): string {
  return /[.?!…]$/.test(text) ? capital(text) : `${capital(text)}.`;
}

/** '1 step', '6 steps'. */
export function counted(count: number, one: string, many = `${one}s`): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** An answer cut off where it would be too long for one message. */
export function cutToFit(answer: Answer): Answer {
  let room = MESSAGE_AT_MOST;
  const text = answer.text.flatMap((passage): Passage[] => {
    const words = typeof passage === 'string' ? passage : passage.bold;
    const kept = words.length <= room ? passage : room > 0 ? `${words.slice(0, room)}…` : '';
    room = Math.max(0, room - words.length);
    return kept === '' ? [] : [kept];
  });
  return { ...answer, text };
}

/** The same answer with a line put before it. */
export function headed(line: Line, answer: Answer): Answer {
  const text = answer.text.length === 0 ? [...passagesOf(line)] : [...passagesOf(line), '\n', ...answer.text];
  return cutToFit({ ...answer, text });
}
