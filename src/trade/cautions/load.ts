import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { callsFor, type Work } from './occasion.js';
import { cautionSchema, type Caution } from './schema.js';

export type { Work } from './occasion.js';
export type { Act, Caution } from './schema.js';

/** What every caution ends with: Benchhand passes on the usual caution and decides nothing. */
export const DEFER = 'Follow local rules and licensed practice.';

const FILES = ['dust', 'heat', 'plating', 'liquids', 'mechanical', 'running'] as const;

/** A file of cautions can't be used as it is. */
export class CautionsError extends Error {
  override readonly name = 'CautionsError';
}

const read = (file: string): Caution[] => {
  const text = readFileSync(new URL(`./${file}.yaml`, import.meta.url), 'utf8');
  const result = z.array(cautionSchema).safeParse(parse(text));
  if (!result.success) throw new CautionsError(`${file}.yaml: ${z.prettifyError(result.error)}`);
  return result.data;
};

const byIdOnce = (cautions: readonly Caution[]): ReadonlyMap<string, Caution> => {
  const byId = new Map<string, Caution>();
  for (const caution of cautions) {
    if (byId.has(caution.id)) throw new CautionsError(`two cautions are called '${caution.id}'`);
    byId.set(caution.id, caution);
  }
  return byId;
};

/** All cautions, the gravest kinds of work first within their file. */
export const cautions: readonly Caution[] = FILES.flatMap(read);
const byId = byIdOnce(cautions);

export const cautionById = (id: string): Caution | null => byId.get(id) ?? null;

/** The cautions that this work on this item calls for, none where it is harmless. */
export const cautionsFor = (work: Work): Caution[] =>
  cautions.filter((caution) => caution.when.some((occasion) => callsFor(occasion, work)));
