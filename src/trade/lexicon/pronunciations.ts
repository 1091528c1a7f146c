import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';

const said = z
  .string()
  .regex(/^[A-Z]{1,2}( [A-Z]{1,2})*$/, 'must be ARPAbet phonemes with single spaces, no stress marks');

/** British pronunciations of the trade's words, as ARPAbet phonemes without stress, by word. */
export const pronunciations: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries(
    z
      .record(z.string(), said)
      .parse(parse(readFileSync(new URL('./pronunciations.yaml', import.meta.url), 'utf8'))),
  ).map(([word, phonemes]) => [word, phonemes.split(' ')]),
);
