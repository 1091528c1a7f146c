import { readdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';

/** All lines of the log files in a folder. */
export async function logsIn(folder: string): Promise<string[]> {
  const names = (await readdir(folder)).filter((name) => name.endsWith('.log'));
  const texts = await Promise.all(names.map((name) => readFile(join(folder, name), 'utf8')));
  return texts.flatMap((text) => text.split('\n').filter((line) => line !== ''));
}

/** Which of people's names, texts and secrets stand in log lines, with the line each stands in. Names count as whole words. */
export function leaksIn(
  lines: readonly string[],
  {
    names,
    texts,
    secrets,
  }: { names: readonly string[]; texts: readonly string[]; secrets: readonly string[] },
): string[] {
  const named = names.map((name) => new RegExp(`(?<![\\w-])${name.replace(/[^\w ]/g, '\\$&')}(?![\\w-])`));
  // Short answers such as 'yes' stand in any log; a text of some length stands there only if it was put there.
  const pieces = [...new Set([...texts.flatMap(piecesOf), ...secrets])];
  return lines.flatMap((line) => {
    const found = [
      ...named.filter((name) => name.test(line)).map(String),
      ...pieces.filter((piece) => line.includes(piece)),
    ];
    return found.map((leak) => `${leak} in ${line.slice(0, 300)}`);
  });
}

const PIECE = 12;

/** A text as it would stand in JSON, and each line of it. */
function piecesOf(text: string): string[] {
  const whole = JSON.stringify(text).slice(1, -1);
  return [whole, ...text.split(/\n|\. |; /).map((piece) => JSON.stringify(piece.trim()).slice(1, -1))].filter(
    (piece) => piece.length >= PIECE,
  );
}
