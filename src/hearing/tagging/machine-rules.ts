import { wordAt } from '../text/word-at.js';
import type { Chunk } from './chunk.js';
import type { NameHeard, NameRule } from './name-rules.js';
import { asSaid } from './name-words.js';
import { partStarts } from './part-starts.js';

const machine = ({ tokens, at, to }: NameHeard, end = to): Chunk => ({
  kind: 'machine',
  from: at,
  to: end,
  machine: asSaid(tokens, at, to),
});

/** Where machines stand. */
const STANDS =
  /^(shed|shop|workshop|bench|ramp|lift|stand|trestles|blocks|garage|bits|pieces|wheels|road|yard)$/;
const LEADS_THERE = /^(in|on|up|back|the|its|at|now|here)$/;

/** "Gilloway's landed", "Harrowby's in the shed": a machine is here, and nothing else is told by that. */
export const machineComes: NameRule = (name) => {
  if (!name.first || name.doubtful || !/^('s|is|has)$/.test(name.next)) return null;
  let end = name.to + 1;
  while (end < name.to + 6 && LEADS_THERE.test(wordAt(name.tokens, end))) end += 1;
  const stands = end > name.to + 1 && STANDS.test(wordAt(name.tokens, end));
  const landed = end === name.to + 1 && /^(landed|arrived)$/.test(name.then);
  return stands || landed ? machine(name, end + 1) : null;
};

/** "Pelling won't start", "Marlin runs rough": what only an engine does. */
export const machineRuns: NameRule = (name) => {
  if (!name.first || name.doubtful) return null;
  const refuses =
    /^(won't|wouldn't|doesn't|didn't|isn't|'s|is|still)$/.test(name.next) &&
    /^(start|starting|run|running|fire|firing|idle|tick|rev|pull|pulling|misfiring|smoking|knocking)$/.test(
      name.then,
    );
  return refuses ||
    /^(runs|ran|starts|started|idles|misfires|smokes|knocks|fires|fired|weaves)$/.test(name.next)
    ? machine(name)
    : null;
};

/** "Pat Dowsett's Marlpit." */
export const machineOfForename: NameRule = (name) => {
  const { tokens, at, to } = name;
  const owned = name.near === "'s" && /^\p{Lu}\p{Ll}/u.test(tokens[at - 2]?.text ?? '');
  return owned &&
    !partStarts(tokens, at) &&
    !partStarts(tokens, to) &&
    /^[.:,]$/.test(name.next) &&
    name.tokens.length > to + 1
    ? machine(name)
    : null;
};

/** "one of them Tarrick mudguard stays", "sent Harrowmere tank off": a thing by the machine that it is of. */
export const thingOfMachine: NameRule = (name) =>
  !name.first &&
  /^(them|those|these|that|this|both|all)$/.test(name.near) &&
  !partStarts(name.tokens, name.at) &&
  partStarts(name.tokens, name.to) &&
  !name.ordinary(wordAt(name.tokens, name.at))
    ? machine(name)
    : null;
