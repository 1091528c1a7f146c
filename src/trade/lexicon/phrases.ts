import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { CONDITIONS, PLACES, PROCESSES, REMEDIES } from '../terms.js';

/** Comma-separated phrases. */
const words = z
  .string()
  .default('')
  .transform((text) =>
    text
      .split(',')
      .map((phrase) => phrase.trim())
      .filter((phrase) => phrase !== ''),
  );
const saying = { said: words, nouns: words, verbs: words };
const list = <T extends z.ZodRawShape>(shape: T) => z.array(z.strictObject({ ...saying, ...shape })).min(1);

const TRADES = ['in', 'out', 'either'] as const;
/** Who does a process as a rule: `out` where a small shop sends it away. */
export type Doer = (typeof TRADES)[number];

const SHAPES = {
  conditions: list({ means: z.enum(CONDITIONS) }),
  remedies: list({ means: z.enum(REMEDIES) }),
  processes: list({ means: z.enum(PROCESSES), trade: z.enum(TRADES) }),
  acts: list({
    means: z.enum(['stripped', 'ordered', 'sent', 'promised', 'back', 'fitted', 'tested', 'agreed']),
    outcome: z.enum(['all', 'part', 'refused', 'pass', 'fail', 'yes', 'no', 'talk']).optional(),
    particles: words,
  }),
  places: list({ means: z.enum(PLACES) }),
  trades: list({ means: z.literal('trade'), things: words, persons: words }),
  'set-phrases': list({ means: z.literal('aside') }),
} as const;

export type PhraseFile = keyof typeof SHAPES;
export type Phrases = { [F in PhraseFile]: z.output<(typeof SHAPES)[F]> };

/** A file of `phrases/` can't be used as it is. */
export class PhrasesError extends Error {
  override readonly name = 'PhrasesError';
}

function readPhrases<F extends PhraseFile>(file: F): Phrases[F] {
  const url = new URL(`./phrases/${file}.yaml`, import.meta.url);
  const result = SHAPES[file].safeParse(parse(readFileSync(url, 'utf8'), { schema: 'failsafe' }));
  if (!result.success) throw new PhrasesError(`${file}.yaml: ${z.prettifyError(result.error)}`);
  return result.data as Phrases[F];
}

/** The phrases that ship with Benchhand, read once. */
export const phrases: Phrases = {
  conditions: readPhrases('conditions'),
  remedies: readPhrases('remedies'),
  processes: readPhrases('processes'),
  acts: readPhrases('acts'),
  places: readPhrases('places'),
  trades: readPhrases('trades'),
  'set-phrases': readPhrases('set-phrases'),
};

/** All plain phrases that a pattern stands for: "will do (again)" -> both; "snapped off|in_half" -> both. */
export function expand(pattern: string): string[] {
  // A bracketed choice or word may be left out; its spaces are kept from the split below.
  const slots = pattern
    .replace(/\(([^)]*)\)/g, (_, inner: string) => `?${inner.replace(/ /g, '_')}`)
    .split(' ');
  return slots.reduce<string[]>(
    (made, slot) => {
      const optional = slot.startsWith('?');
      const choices = (optional ? slot.slice(1) : slot).split('|').map((word) => word.replace(/_/g, ' '));
      const all = optional ? ['', ...choices] : choices;
      return made.flatMap((start) => all.map((choice) => `${start} ${choice}`.trim()));
    },
    [''],
  );
}
