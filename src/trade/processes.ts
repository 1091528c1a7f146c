import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import { z } from 'zod';
import { phrases } from './lexicon/phrases.js';
import { PROCESSES, QUANTITIES, type Process } from './terms.js';

const factsSchema = z
  .strictObject({
    doing: z.string().min(1),
    done: z.string().min(1),
    trade: z.string().min(1),
    median: z.number().positive().max(120),
    spread: z.number().positive().max(2),
    first: z.array(z.enum(PROCESSES)).default([]),
    measure: z.array(z.enum(QUANTITIES)).default([]),
  })
  .transform(({ median, spread, ...facts }) => ({ ...facts, leadTime: { median, spread } }));

/**
 * What the trade knows of a process: `doing` as in 'sent for chroming', `done` as in 'chromed', the `trade` that does
 * it ('plater'), the processes usually wanted `first`, what to `measure` again on return, and the lead time.
 */
export type ProcessFacts = z.output<typeof factsSchema>;

/** How long a supplier has a thing: median in working days, and the standard deviation of its logarithm. */
export type LeadTimePrior = { readonly median: number; readonly spread: number };

const tableSchema = z.record(z.enum(PROCESSES), factsSchema);

/** Every process with its facts; the numbers are common practice, no source. */
export const processFacts: Readonly<Record<Process, ProcessFacts>> = tableSchema.parse(
  parse(readFileSync(new URL('./processes.yaml', import.meta.url), 'utf8')),
);

/** Parts bought, and work of no known process; common practice, no source. */
export const PARTS_LEAD_TIME: LeadTimePrior = { median: 6, spread: 0.7 };
export const OTHER_LEAD_TIME: LeadTimePrior = { median: 15, spread: 0.7 };

const isProcess = (word: string): word is Process => PROCESSES.some((process) => process === word);

/** What the trade expects of a process before a shop's own history is known; `OTHER_LEAD_TIME` for any other word. */
export const leadTimePrior = (process: string): LeadTimePrior =>
  isProcess(process) ? processFacts[process].leadTime : OTHER_LEAD_TIME;

/** Whether a part that had this done is measured again before it is fitted. */
export const measuredOnReturn = (process: Process): boolean => processFacts[process].measure.length > 0;

const TRADE_NAMES: ReadonlySet<string> = new Set([
  ...Object.values(processFacts).map((facts) => facts.trade),
  ...phrases.trades.flatMap((row) => row.nouns),
  ...phrases.trades.flatMap((row) =>
    row.things.flatMap((thing) => row.persons.map((person) => `${thing} ${person}`)),
  ),
]);

const spoken = (name: string): string =>
  name
    .toLowerCase()
    .replace(/[’']s\b/g, '')
    .replace(/^(the|a|an|my|our|your) /, '')
    .trim();

/** Whether a supplier was named by trade alone: 'the plater', 'the gauge man', 'platers'. */
export const isTrade = (name: string): boolean => {
  const said = spoken(name);
  return TRADE_NAMES.has(said) || TRADE_NAMES.has(said.replace(/s$/, ''));
};

/** The processes that a trade does as a rule; empty where the word is no trade of `processFacts`. */
export const processesOf = (trade: string): Process[] => {
  const said = spoken(trade);
  return PROCESSES.filter((process) => [said, said.replace(/s$/, '')].includes(processFacts[process].trade));
};
