import type { Token } from '../text/tokens.js';
import { wordAt, wordsBefore } from '../text/word-at.js';
import type { Chunk } from './chunk.js';
import { asksToDo, isBreak } from './hired.js';
import { firmRunsLate } from './firm-rules.js';
import { headsWith } from './machine-heads.js';
import { machineComes, machineOfForename, machineRuns, thingOfMachine } from './machine-rules.js';
import { asSaid, isCapital } from './name-words.js';
import { partStarts } from './part-starts.js';
import { isFirm } from './small-letter-names.js';

/** A run of capitalised words as it stands in a message: tokens `at` up to, not including, `to`. */
export type NameHeard = {
  tokens: readonly Token[];
  at: number;
  to: number;
  /** Begins a sentence. */
  first: boolean;
  /** Begins a sentence and is an ordinary word, with nothing after it that only a name has. */
  doubtful: boolean;
  /** The word before, "young" and the like passed over. */
  lead: string;
  /** The word before it as it stands, the one before that, and the three that follow. */
  near: string;
  beforeNear: string;
  next: string;
  then: string;
  later: string;
  /** What it does: the word that follows, "just" and the like passed over. */
  does: string;
  /** Followed by 's. */
  possessive: boolean;
  /** Is the subject of saying: "Brian says", "Brian's promised". */
  speaks: boolean;
  ordinary: (word: string) => boolean;
};

const supplier = ({ tokens, at, speaks }: NameHeard, to: number, talks = speaks): Chunk => ({
  kind: 'supplier',
  from: at,
  to,
  supplier: asSaid(tokens, at, to),
  known: false,
  speaks: talks,
});

const machine = ({ tokens, at, to }: NameHeard, from: number, end: number): Chunk => ({
  kind: 'machine',
  from,
  to: end,
  machine: asSaid(tokens, at, to),
});

/** What a name is by its company, or null where that tells nothing. */
export type NameRule = (name: NameHeard) => Chunk | null;

/** How far after "Quillan:" a word of promising tells that Quillan says it. */
const PROMISE_WITHIN = 8;

/** "Quillan: ready Friday", where "Marlin: forks leak" tells a machine's state. */
const promises = ({ tokens, to }: NameHeard): boolean =>
  tokens
    .slice(to, to + PROMISE_WITHIN)
    .some(({ word }) =>
      /^(promised|promise|says|said|ready|reckons|quoted|quote|expects|hopes|can)$/.test(word),
    );

/** "Brackenshaw. Both stanchions pitted". */
const machineHeads: NameRule = (name) => {
  const end = headsWith(name.tokens, name.at, name.to);
  if (end === null || promises(name)) return null;
  return { kind: 'machine', from: name.at, to: end, machine: asSaid(name.tokens, name.at, end) };
};

/** "Corrane's been round the loop": no firm. */
const machineRidden: NameRule = (name) =>
  name.possessive && name.then === 'been' && /^(round|up|over|out|along|tested|ridden)$/.test(name.later)
    ? machine(name, name.at, name.to)
    : null;

/** "Mrs Hosking's Dunnock". */
const machineOfOwner: NameRule = (name) =>
  name.near === "'s" &&
  isCapital(name.tokens[name.at - 2]) &&
  /^(mr|mrs|ms|miss|dr|sir|lady|major|captain|colonel)$/.test(wordAt(name.tokens, name.at - 3))
    ? machine(name, name.at, name.to)
    : null;

/** "headlamp on the Marlin is cracked". */
const machineWorkedOn: NameRule = (name) =>
  name.lead === 'the' &&
  /^(for|on|off)$/.test(name.beforeNear) &&
  /^(is|are|has|have|needs|wants|in|was|were|'s|,)$/.test(name.next)
    ? machine(name, name.at - 2, name.to)
    : null;

const ASKED_OF =
  /^(charge|want|say|send|sent|quote|quoted|have|got|get|finish|finished|promise|promised|do|done|post|deliver|ask|reckon|still|ever|make|start|started|need)$/;

/** "did Tobin charge", "what's Mossop sitting on", "is Hadley late with": whose doings are asked about. */
const firmAskedAbout: NameRule = (name) => {
  const does = /^(did|does|do|has|can|could|will|would)$/.test(name.near) && ASKED_OF.test(name.next);
  const is =
    /^(is|'s|are)$/.test(name.near) &&
    /^(late|behind|sitting|holding|hanging|got|doing|charging|asking|up|still|waiting)$/.test(name.next);
  return !name.first && (does || is) ? supplier(name, name.to) : null;
};

/** "Gadsley to chrome the levers". */
const firmHired: NameRule = (name) =>
  !name.doubtful && asksToDo(name.tokens, name.at, name.to) ? supplier(name, name.to) : null;

/** "Hadley agreed", "Hadley's happy", "Hadley says go ahead". */
const ownerAnswers: NameRule = (name) => {
  const { next, then } = name;
  const answers =
    /^(agreed|agrees|approved|approves|okayed|declined|vetoed)$/.test(next) ||
    (/^(wants|needs)$/.test(next) && /^(it|the|his|her|them)$/.test(then)) ||
    (/^(says|said)$/.test(next) && /^(yes|no|ok|go)$/.test(then)) ||
    (name.possessive && /^(happy|fine|ok|okay|agreed|keen)$/.test(then)) ||
    (/^(is|isn't)$/.test(next) && /^(happy|fine|ok|okay|keen)$/.test(then));
  const owner = asSaid(name.tokens, name.at, name.to);
  return answers && !name.doubtful ? { kind: 'owner', from: name.at, to: name.to, owner } : null;
};

/** "to Harker's", "rang Harker". */
const firmDealtWith: NameRule = (name) =>
  name.at > 0 &&
  /^(to|from|with|at|by|via|off|rang|phoned|texted|emailed|chased|sent|gave|paid|asked|handed)$/.test(
    name.lead,
  )
    ? supplier(name, name.to + (name.possessive ? 1 : 0))
    : null;

/** "Thackley's clutch", "Thackley's on the bench". */
const machineOwned: NameRule = (name) =>
  name.possessive && !name.doubtful && (partStarts(name.tokens, name.to + 1) || /^(on|up)$/.test(name.then))
    ? machine(name, name.at, name.to + 1)
    : null;

/** "Pargeter's to do the tank": is to. */
const firmIsTo: NameRule = (name) =>
  name.possessive && name.then === 'to' && !name.doubtful ? supplier(name, name.to + 1, true) : null;

/** "Harker came back with 80". */
const firmCameBack: NameRule = (name) =>
  name.next === 'came' && name.then === 'back' && /^(to|with)$/.test(name.later) && !name.doubtful
    ? supplier(name, name.to, true)
    : null;

/** Verbs that a firm's name with an s of its own comes before: "Pargeter's say", where "Pargeter's said it" and "has said" differ. */
export const TELLS_OF =
  /^(say|says|said|reckon|reckons|reckoned|rang|phoned|texted|emailed|quote|quotes|want|wants|have|are|promise|promises|rung|returned|sent)$/;

/** After a name's 's, what has been done: "Painter's rung". */
const DONE = /^(rung|returned|sent)$/;

const firmWithAnS: NameRule = (name) =>
  name.possessive && TELLS_OF.test(name.then) && !DONE.test(name.then)
    ? supplier(name, name.to + 1, true)
    : null;

/** "ready Friday, says Harker". */
const firmToldLast: NameRule = (name) =>
  TELLS_OF.test(name.lead) && !name.first && isBreak(name.tokens[name.to])
    ? supplier(name, name.to, true)
    : null;

/** "before the Marlin can be called inspected": what a machine does in a question or a report, and no firm with an article. */
const machineStands: NameRule = (name) =>
  name.lead === 'the' && !name.first && /^(can|is|has|needs|gets|goes|'s)$/.test(name.next)
    ? machine(name, name.at - 1, name.to)
    : null;

/** "Brian says". */
const firmSpeaks: NameRule = (name) => (name.speaks && !name.doubtful ? supplier(name, name.to) : null);

/** "what's left on Marlin?", but "still waiting on Harker". */
const onTheLast: NameRule = (name) => {
  const end = name.tokens.length - (/^[?.!]$/.test(name.next) ? 1 : 0);
  if (name.lead !== 'on' || name.first || name.to !== end) return null;
  const waits = /^(waiting|wait|waits|chase|chasing|held|hanging)$/.test(name.beforeNear);
  return waits ? supplier(name, name.to) : machine(name, name.at - 1, name.to);
};

/** "Marlin road tested". */
const machineTested: NameRule = (name) =>
  name.first && !name.doubtful && name.next === 'road' && name.then.startsWith('test')
    ? machine(name, name.at, name.to)
    : null;

/** "on the Marlin job". */
const machineWithArticle: NameRule = (name) => {
  if (!/^(the|this|that)$/.test(name.lead) || name.first) return null;
  const job = /^(job|project|rebuild|restoration|one)$/.test(name.next);
  const on = /^(on|for)$/.test(name.beforeNear) ? 1 : 0;
  return machine(name, name.at - 1 - on, name.to + (job || name.possessive ? 1 : 0));
};

/** "Marlin:", "Marlin - forks leak", where "Marlin-built" is one word. */
const headed = ({ tokens, to, next, doubtful }: NameHeard): boolean =>
  next === ':' || (/^[-–—]$/.test(next) && tokens[to]?.before !== '' && !doubtful);

/** "Quillan: ready Friday" is a supplier's word, "Marlin: forks leak" a machine's state. */
const beforeColon: NameRule = (name) => {
  if (!name.first || !headed(name)) return null;
  if (promises(name)) return supplier(name, name.to);
  return partStarts(name.tokens, name.at) ? null : machine(name, name.at, name.to + 1);
};

/** "Marlin gearbox out". */
const machineThenPart: NameRule = (name) =>
  name.first && !name.doubtful && partStarts(name.tokens, name.to) ? machine(name, name.at, name.to) : null;

/** "… circlips. Kelderby Spares. £64", "new cable, Harker, 12 quid": a firm between two marks. */
const firmAlone: NameRule = (name) => {
  const { tokens, at, to } = name;
  const end = to + (name.possessive ? 1 : 0);
  if (!isBreak(tokens[end])) return null;
  const sentence =
    at > 1 && !partStarts(tokens, at) && tokens.slice(at, to).some(({ word }) => !name.ordinary(word));
  return (name.first ? sentence : isBreak(tokens[at - 1])) ? supplier(name, end) : null;
};

/** "from the Castlegate Cycle Co.": a firm by what its name ends in, where a machine has its article too. */
const firmWithArticle: NameRule = (name) => {
  const { tokens, to } = name;
  if (
    name.lead !== 'the' ||
    !/^(to|from|with|at|by|off|via)$/.test(name.beforeNear) ||
    !isFirm(tokens[to - 1])
  )
    return null;
  const stop = /^(co|bros|ltd)$/.test(wordAt(tokens, to - 1)) && name.next === '.';
  return supplier(name, to + (stop ? 1 : 0));
};

const MOVES =
  /^(take|took|taken|taking|run|ran|drop|dropped|send|sent|nip|nipped|pop|popped|going|gone|went)$/;

/** "take it up Pillbank", "ran the crank down Osgood's": gone to somebody, without a "to". */
const firmGoneTo: NameRule = (name) =>
  /^(up|down|over|round|across|along)$/.test(name.near) &&
  wordsBefore(name.tokens, name.at - 1, 5).some((word) => MOVES.test(word))
    ? supplier(name, name.to + (name.possessive ? 1 : 0))
    : null;

const RULES: readonly NameRule[] = [
  machineHeads,
  firmRunsLate,
  firmWithArticle,
  firmGoneTo,
  machineRidden,
  machineComes,
  machineRuns,
  machineOfOwner,
  machineOfForename,
  machineWorkedOn,
  firmAskedAbout,
  firmHired,
  ownerAnswers,
  firmDealtWith,
  machineOwned,
  firmIsTo,
  firmCameBack,
  firmWithAnS,
  firmToldLast,
  machineStands,
  firmSpeaks,
  onTheLast,
  machineTested,
  machineWithArticle,
  beforeColon,
  machineThenPart,
  thingOfMachine,
  firmAlone,
];

/** "up over the Corwick": where a ride went, no machine. */
const goneOver = ({ lead, beforeNear }: NameHeard): boolean =>
  /^(the|this|that)$/.test(lead) && /^(over|along|round|through|across|past|down|via)$/.test(beforeNear);

/** What a capitalised name is: a firm, an owner or a machine, by the first rule that its company meets; null by none. */
export function meaningOfName(name: NameHeard): Chunk | null {
  if (goneOver(name)) return null;
  for (const rule of RULES) {
    const meaning = rule(name);
    if (meaning !== null) return meaning;
  }
  return null;
}
