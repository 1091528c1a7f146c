import type { ItemReading } from '../reading.js';
import type { Condition } from '../../trade/terms.js';
import type { Chunk, ChunkOf } from '../tagging/chunk.js';
import type { Token } from '../text/tokens.js';
import { wordAt } from '../text/word-at.js';
import { actOf, type Setting } from './acts.js';
import { decisionOf } from './decisions.js';
import { measuredOf } from './measured.js';
import type { Thing } from './things.js';

const unique = <T>(values: readonly T[]): T[] => [...new Set(values)];

/** Who the work goes to or comes from; who speaks where an owner answers is the owner. */
const supplierOf = (said: readonly Chunk[], act: string): string | undefined =>
  said.findLast(
    (chunk): chunk is ChunkOf<'supplier'> => chunk.kind === 'supplier' && !(act === 'agreed' && chunk.speaks),
  )?.supplier;

/** Where it was put: the place with a number first ("bag 7 on the shelf"). */
const storedOf = (said: readonly Chunk[]): string | null => {
  const places = said.filter((chunk): chunk is ChunkOf<'stored'> => chunk.kind === 'stored');
  const numbered = places.findLast(({ stored }) => /[\dA-Z]$/.test(stored));
  return (numbered ?? places.at(-1))?.stored ?? null;
};

/** "gone to Mrs Lamb": a person with a title who work goes to or comes from. */
const hired = (said: readonly Chunk[], act: string, tokens: readonly Token[]): string | undefined =>
  act === 'agreed'
    ? undefined
    : said.find(
        (chunk): chunk is ChunkOf<'owner'> =>
          chunk.kind === 'owner' && /^(to|from|at|with|off)$/.test(wordAt(tokens, chunk.from - 1)),
      )?.owner;

/** What tells how far a machine has gone. */
const RECORDS = /speedometer|odometer|trip/;

const TOLD_LATE = new Set(['back', 'stripped', 'fitted', 'tested']);

/** What a clause says of all its things alike. */
export type Shared = Omit<ItemReading, 'item' | 'part' | 'count' | 'place' | 'unsure'> & { unsure: string[] };

/** What a clause says, apart from the things it is said of. */
export function sharedOf(
  said: readonly Chunk[],
  thing: Thing | null,
  setting: Setting,
  tokens: readonly Token[],
  today: string,
): Shared {
  const told = actOf(said, setting, tokens, today);
  const decision = decisionOf(said, told.act, tokens);
  const conditions = unique(
    said
      .filter((chunk): chunk is ChunkOf<'condition'> => chunk.kind === 'condition')
      .map((chunk) => chunk.condition),
  );
  const real: Condition[] =
    conditions.length > 1 ? conditions.filter((condition) => condition !== 'good') : conditions;
  const supplier = supplierOf(said, told.act) ?? hired(said, told.act, tokens);
  const money = said.findLast((chunk): chunk is ChunkOf<'money'> => chunk.kind === 'money');
  const date = said.findLast((chunk): chunk is ChunkOf<'date'> => chunk.kind === 'date');
  const past =
    TOLD_LATE.has(told.act) || (date?.date === today && told.act !== 'promised' && told.act !== 'finding');
  const due = date === undefined || (past && !date.by) ? undefined : date;
  const unsure = [
    ...(told.sure ? [] : ['act']),
    ...(decision.sure ? [] : ['remedy']),
    ...(money?.sure === false &&
    !said.some((chunk) => chunk.kind === 'supplier' || chunk.kind === 'remedy' || chunk.kind === 'process')
      ? ['cost']
      : []),
    ...(due?.sure === false ? ['due'] : []),
  ];
  // "Road tested the Marlow, fine": how the test went.
  const wentWell = told.act === 'tested' && (thing?.part ?? null) === null && real.join() === 'good';
  // "dynamo on the bench, 6.8 volts. That'll do"
  const willDo =
    told.act === 'tested' && said.some((chunk) => chunk.kind === 'remedy' && chunk.remedy === 'keep');
  return {
    act: told.act,
    conditions: wentWell ? [] : real,
    remedy: decision.remedy,
    processes: decision.processes,
    supplier: supplier ?? null,
    stored: storedOf(said),
    outcome:
      told.act === 'back' && told.outcome === null && whole(said)
        ? 'all'
        : (told.outcome ?? (wentWell || willDo ? 'pass' : null)),
    cost: money?.cost ?? null,
    due: due?.date ?? null,
    // How far a ride went is no measurement.
    readings: measuredOf(said, thing?.part ?? null).filter(
      ({ unit }) => !/^(mi|km)$/.test(unit) || RECORDS.test(thing?.part?.part ?? ''),
    ),
    unsure,
  };
}

/** "the lot", "all of it" came back. */
const whole = (said: readonly Chunk[]): boolean =>
  said.some((chunk) => chunk.kind === 'pronoun' && chunk.refers === 'all');
