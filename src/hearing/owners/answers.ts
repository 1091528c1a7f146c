import type { Listener } from '../listener.js';
import type { Clause } from './clauses.js';
import { clausesOf } from './clauses.js';
import type { Stance } from './stances.js';
import { isCondition } from './stances.js';
import type { AskedOf } from './things.js';
import { markThings } from './things.js';

export type Outcome = 'yes' | 'no' | 'talk';
export type OwnersAnswer = { items: number[]; outcome: Outcome };

export type Questioned = {
  /** All that was asked about, answered since or not: what the words may name. */
  asked: readonly AskedOf[];
  /** What waits for an answer: what 'yes to all of it' covers. */
  waiting: readonly number[];
  /** What was left to be talked about: where nothing waits, 'yes to all of it' covers that, and a bare yes nothing. */
  putOff: readonly number[];
  /** The question is what stands before it, so that an 'OK' is to that, and not to some news that came after. */
  isAnswer: boolean;
};

type Answering = Clause & { stance: Extract<Stance, { kind: 'answer' }> };

/**
 * What an owner said yes or no to, clause by clause. Only a plain yes is one: where a clause cannot be told, or two do not
 * agree, what they name is to be talked about, and so is what a condition, a price or a wish to be asked again is said of.
 */
export function ownersAnswers(text: string, questioned: Questioned, listener: Listener): OwnersAnswer[] {
  const clauses = clausesOf(markThings(text, questioned.asked, listener));
  const named = outcomesOfNamed(clauses, questioned);
  const covered = coverage(clauses, questioned, new Set(named.keys()));
  const outcomes = new Map([...named, ...covered]);
  return (['yes', 'no', 'talk'] as const)
    .map((outcome) => ({
      outcome,
      items: [...outcomes].flatMap(([item, its]) => (its === outcome ? [item] : [])),
    }))
    .filter(({ items }) => items.length > 0);
}

const isAnswering = (clause: Clause): clause is Answering => clause.stance.kind === 'answer';
const isCovering = (clause: Clause): clause is Answering =>
  isAnswering(clause) && clause.stance.covers !== 'named';
const isYes = (clause: Clause): boolean => isAnswering(clause) && clause.stance.says === 'yes';

/** Named apart, but with nothing said that would answer: left as it is, save that no 'yes to all' covers it. */
const MENTIONED = 'mentioned';

function outcomesOfNamed(clauses: readonly Clause[], questioned: Questioned): Map<number, Outcome> {
  const said = new Map<number, Set<Outcome | typeof MENTIONED>>();
  for (const [at, clause] of clauses.entries()) {
    for (const { items, isClear } of clause.named) {
      const outcome = isClear ? outcomeOf(clause, at, clauses, questioned) : 'talk';
      for (const item of items) said.set(item, (said.get(item) ?? new Set()).add(outcome));
    }
  }
  const isCovered = clauses.some((clause) => isCovering(clause) && isYes(clause));
  return new Map(
    [...said].flatMap(([item, outcomes]): [number, Outcome][] => {
      const [only, ...more] = outcomes;
      if (more.length > 0) return [[item, 'talk']];
      if (only !== MENTIONED) return only === undefined ? [] : [[item, only]];
      return isCovered ? [[item, 'talk']] : [];
    }),
  );
}

function outcomeOf(
  clause: Clause,
  at: number,
  clauses: readonly Clause[],
  { isAnswer }: Questioned,
): Outcome | typeof MENTIONED {
  const { stance } = clause;
  switch (stance.kind) {
    case 'answer':
      if (stance.isException && !clauses.slice(0, at).some((one) => isCovering(one) && isYes(one)))
        return 'talk';
      if (stance.says === 'no') return 'no';
      return (stance.isSoft && !isAnswer) || isLimited(clause, at, clauses) ? 'talk' : 'yes';
    case 'talk':
      return 'talk';
    case 'doubt':
      return stance.isAnswering || isCondition(clause.words) ? 'talk' : MENTIONED;
    case 'things':
    case 'courtesy':
    case 'aside':
      return MENTIONED;
  }
}

/** Whether something that names nothing by itself, or a condition, takes part of a yes back. */
function isLimited(yes: Clause, at: number, clauses: readonly Clause[]): boolean {
  return clauses.some((other, place) => {
    if (place === at) return false;
    const isNear = other.sentence === yes.sentence;
    if (isCondition(other.words) && (isNear || other.named.length === 0)) return true;
    if (other.named.length > 0) return false;
    const { stance } = other;
    if (stance.kind === 'answer')
      return stance.says === 'no' && stance.covers === 'bare' && !isTakenUp(place, clauses);
    if (stance.kind === 'talk' && stance.isAgain && !other.isBut && hasRest(clauses)) return false;
    return (stance.kind === 'doubt' || stance.kind === 'talk') && (isNear || place > at) && !other.namesOther;
  });
}

/** 'No, not the seat': the one says what the other says no to. */
function isTakenUp(at: number, clauses: readonly Clause[]): boolean {
  const [no, next] = clauses.slice(at, at + 2);
  return (
    next !== undefined && next.sentence === no?.sentence && isAnswering(next) && next.stance.says === 'no'
  );
}

/** Whether a yes is to things by name alone, so that a wish to be asked again can be of what is left. */
const hasRest = (clauses: readonly Clause[]): boolean =>
  clauses.some(isYes) && !clauses.some((clause) => isCovering(clause) && isYes(clause));

/** What is answered by words for all, or for what is left. */
function coverage(
  clauses: readonly Clause[],
  questioned: Questioned,
  apart: ReadonlySet<number>,
): Map<number, Outcome> {
  const isLeft = (item: number): boolean => !apart.has(item);
  const left = questioned.waiting.filter(isLeft);
  const to = (outcome: Outcome | null, items = left): Map<number, Outcome> =>
    new Map(outcome === null ? [] : items.map((item) => [item, outcome]));
  const covering = clauses.filter(isCovering);
  const plain = covering.filter(({ stance }) => stance.covers !== 'bare');
  if (plain.length > 0)
    return to(
      outcomeOfAll(plain, clauses, questioned),
      questioned.waiting.length > 0 ? left : questioned.putOff.filter(isLeft),
    );
  const talk = clauses.filter(({ stance, named }) => stance.kind === 'talk' && named.length === 0);
  const isAgain = talk.some(({ stance }) => stance.kind === 'talk' && stance.isAgain);
  // 'No to the tank, too dear' tells why; 'yes to the tank, ask me again' is of what is left.
  if (isAgain || (talk.length > 0 && clauses.every(({ named }) => named.length === 0))) return to('talk');
  return questioned.isAnswer ? to(outcomeOfBare(covering, clauses)) : to(null);
}

const isNamedYes = (clause: Clause): boolean => isYes(clause) && !isCovering(clause);

function outcomeOfAll(
  covering: readonly Answering[],
  clauses: readonly Clause[],
  { waiting, isAnswer }: Questioned,
): Outcome {
  const [first] = covering;
  const says = first?.stance.says ?? 'yes';
  if (covering.some(({ stance }) => stance.says !== says)) return 'talk';
  if (covering.some(({ stance }) => stance.covers === 'both' && waiting.length !== 2)) return 'talk';
  if (says === 'no') return 'no';
  const isOpen =
    covering.some(
      (clause) => (clause.stance.isSoft && !isAnswer) || isLimited(clause, clauses.indexOf(clause), clauses),
    ) || clauses.some((clause) => clause.namesOther && !isYes(clause));
  return isOpen ? 'talk' : 'yes';
}

/** A yes or no that names nothing answers all, where all else is politeness, or says what is apart. */
function outcomeOfBare(bare: readonly Answering[], clauses: readonly Clause[]): Outcome | null {
  const [first] = bare;
  if (first === undefined || clauses.some(isNamedYes)) return null;
  const { says } = first.stance;
  if (bare.some(({ stance }) => stance.says !== says)) return 'talk';
  const others = clauses.filter((clause) => !isCovering(clause) && clause.stance.kind !== 'courtesy');
  if (others.length === 0) return says;
  const isPlainNo = (clause: Clause): boolean =>
    isAnswering(clause) && clause.stance.says === 'no' && !clause.namesOther;
  const isFirm = bare.every(({ stance }) => !stance.isSoft);
  if (says === 'yes' && isFirm && others.every(isPlainNo)) return 'yes';
  return others.some(({ stance, named }) => stance.kind === 'doubt' && named.length === 0) ? 'talk' : null;
}
