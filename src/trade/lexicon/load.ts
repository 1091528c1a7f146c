import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { clashes, folded } from './clashes.js';
import { entrySchema, type Part } from './schema.js';

export type { Part } from './schema.js';

export type Lexicon = {
  /** In the order of the files' names, then of the entries. */
  readonly parts: readonly Part[];
  /**
   * The part with this canonical name, other name or irregular plural. Any case; a hyphen counts as a space.
   * Misheard names don't count.
   */
  byName(name: string): Part | undefined;
};

/** The lexicon's files can't be used as they are; each problem names its file and entry. */
export class LexiconError extends Error {
  override readonly name = 'LexiconError';
  constructor(readonly problems: readonly string[]) {
    super(`The parts lexicon has ${problems.length} problem(s):\n${problems.join('\n')}`);
  }
}

type FileRead = { parts: Part[]; problems: string[] };

const entryLabel = (file: string, index: number, raw: unknown): string => {
  const named = z.looseObject({ name: z.string() }).safeParse(raw);
  return `${file}, entry ${index + 1}${named.success ? ` '${named.data.name}'` : ''}`;
};

/** The parts of one file's text. Nothing is thrown: `problems` says what is wrong, naming file and entry. */
export const readParts = (file: string, text: string): FileRead => {
  let raw: unknown;
  try {
    raw = parse(text);
  } catch (cause) {
    return { parts: [], problems: [`${file}: is not YAML: ${String(cause)}`] };
  }
  if (!Array.isArray(raw)) return { parts: [], problems: [`${file}: must be a list of parts ('- name: …')`] };
  const area = file.replace(/\.yaml$/, '');
  const parts: Part[] = [];
  const problems: string[] = [];
  raw.forEach((entry: unknown, index) => {
    const result = entrySchema.safeParse(entry);
    if (result.success) parts.push({ ...result.data, area });
    else
      for (const issue of result.error.issues)
        problems.push(`${entryLabel(file, index, entry)}: ${[...issue.path, issue.message].join(': ')}`);
  });
  return { parts, problems };
};

/** The compiler copies no YAML, so compiled code (in dist/src/trade/lexicon/) reads the source tree's files. */
const shippedFolder = (): URL => {
  const beside = new URL('./parts/', import.meta.url);
  return existsSync(beside) ? beside : new URL('../../../../src/trade/lexicon/parts/', import.meta.url);
};

/**
 * Reads every `*.yaml` of a folder (its URL ends in a stroke) and checks the entries against each other.
 * @throws LexiconError with all problems at once, each naming file and entry
 */
export const loadLexicon = (folder: URL = shippedFolder()): Lexicon => {
  const files = readdirSync(folder)
    .filter((file) => file.endsWith('.yaml'))
    .sort();
  const read = files.map((file) => readParts(file, readFileSync(new URL(file, folder), 'utf8')));
  const parts = read.flatMap((one) => one.parts);
  const unread = read.flatMap((one) => one.problems);
  // An entry that can't be read would also make others' `within` fail: told of first, alone.
  const problems = unread.length > 0 ? unread : clashes(parts);
  if (problems.length > 0) throw new LexiconError(problems);
  const names = new Map<string, Part>();
  for (const part of parts)
    for (const name of [part.name, ...part.also, ...(part.plural === undefined ? [] : [part.plural])])
      names.set(folded(name), part);
  return { parts, byName: (name) => names.get(folded(name)) };
};

/** The lexicon that ships with Benchhand, read once. */
export const lexicon: Lexicon = loadLexicon();
