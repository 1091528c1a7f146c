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

/** "Gilloway's landed", "Harrowby's in the shed": a machine is here; a person comes in, and goes on to say. */
export const machineComes: NameRule = (name) => {
  if (!name.first || name.doubtful || !/^('s|is|has)$/.test(name.next)) return null;
  const landed = /^(landed|arrived|stripped|apart|running|rolling)$/.test(name.then);
  const there =
    /^(in|on|up|back)$/.test(name.then) &&
    /^(the|bits|pieces|on)$/.test(name.later) &&
    STANDS.test(wordAt(name.tokens, name.to + (name.later === 'the' ? 3 : name.later === 'on' ? 4 : 2)));
  return landed || there ? machine(name, name.to + 1) : null;
};

/** Where machines stand. */
const STANDS =
  /^(shed|shop|workshop|bench|ramp|lift|stand|trestles|blocks|garage|bits|pieces|wheels|road|back|yard)$/;

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
