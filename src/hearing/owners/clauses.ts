import type { Stance } from './stances.js';
import { isCondition, otherStance, plainStance } from './stances.js';
import type { Marked, Named } from './things.js';

export type Clause = {
  stance: Stance;
  words: string;
  named: Named[];
  sentence: number;
  /** It limits what came before: 'but …', 'though …'. */
  isBut: boolean;
  /** Names a part that nothing was asked about. */
  namesOther: boolean;
};

const SENTENCE = /^[.!?;…\n]$/;
const MARK = /^[^\p{L}\p{N}@%£#']+$/u;
const BUT = /^(?:but|though|although|however|whereas|while|yet)$/;
/** Where a clause may begin without a mark before it. */
const OPENS =
  /^(?:and|then|except|excepting|excluding|apart|other|save|bar|barring|not|no|yes|leave|ask|don't)$/;
const OF_ITS_OWN =
  /^(?:and |then )?(?:(?:the|my) )?@\d+(?: %\d+)? (?:is|are|'s|can|could)\b|^(?:and |then )?(?!the\b|my\b|@)/;

type Piece = { words: string[]; sentence: number; isBut: boolean; isAsked: boolean };

/** An owner's words, clause by clause. */
export function clausesOf({ words, named }: Marked): Clause[] {
  return bound(
    piecesOf(words).flatMap((piece) =>
      heardIn(piece.words, piece.isAsked).map((part, at) => ({
        stance: part.stance,
        words: part.words.join(' '),
        named: namedIn(part.words, named),
        sentence: piece.sentence,
        isBut: at === 0 && piece.isBut,
        namesOther: part.words.includes('@x'),
      })),
    ),
  );
}

function piecesOf(words: readonly string[]): Piece[] {
  const pieces: Piece[] = [];
  let [sentence, isBut, here]: [number, boolean, string[]] = [0, false, []];
  const close = (): void => {
    if (here.length > 0) pieces.push({ words: here, sentence, isBut, isAsked: false });
    [here, isBut] = [[], false];
  };
  for (const word of [...words, '.']) {
    if (SENTENCE.test(word)) {
      close();
      if (word === '?') for (const piece of pieces) piece.isAsked ||= piece.sentence === sentence;
      sentence += 1;
    } else if (BUT.test(word)) {
      close();
      isBut = true;
    } else if (MARK.test(word)) close();
    else here.push(word);
  }
  return pieces;
}

type Heard = { words: string[]; stance: Stance };

/** Nobody answers at such length without a mark: what runs on further is left to be talked about. */
const LONGEST = 60;

/** One clause, or several that run on without a mark, where the first is an answer by itself. */
function heardIn(words: string[], isAsked: boolean): Heard[] {
  const text = textOf(words);
  if (isAsked) return [{ words, stance: asksOnlyWhen(text) ? { kind: 'courtesy' } : unanswered(text) }];
  return words.length > LONGEST ? [{ words, stance: otherStance(text) }] : heardFrom(words, 0, new Map());
}

/** The words from `start` on; `known` holds what was heard from other places on, each looked at once. */
function heardFrom(words: readonly string[], start: number, known: Map<number, Heard[]>): Heard[] {
  const before = known.get(start);
  if (before) return before;
  const heard = firstOf(words, start, known);
  known.set(start, heard);
  return heard;
}

function firstOf(words: readonly string[], start: number, known: Map<number, Heard[]>): Heard[] {
  const all = words.slice(start);
  const plain = plainStance(textOf(all));
  if (plain) return [{ words: all, stance: plain }];
  for (let at = words.length - 1; at > start; at -= 1) {
    if (!OPENS.test(words[at] ?? '')) continue;
    const first = words.slice(start, at);
    const stance = plainStance(textOf(first));
    if (stance?.kind !== 'answer' || stance.covers === 'bare') continue;
    const after = heardFrom(words, at, known);
    if (after.every(standsAlone)) return [{ words: first, stance }, ...after];
  }
  return [{ words: all, stance: otherStance(textOf(all)) }];
}

const textOf = (words: readonly string[]): string => words.join(' ').replace(/ '/g, "'");

/** 'And the tank is too dear' is a clause; 'and the tank if it is cheap' goes on with the one before it. */
function standsAlone({ stance, words }: Heard): boolean {
  if (stance.kind === 'answer') return true;
  const text = words.join(' ');
  return stance.kind === 'talk' && OF_ITS_OWN.test(text) && !isCondition(text);
}

const asksOnlyWhen = (text: string): boolean =>
  /^(?:and )?(?:when|how long)\b/.test(text) && !/[@%]\d/.test(text);

/** What is asked is answered by nobody. */
function unanswered(text: string): Stance {
  const stance = otherStance(text);
  return stance.kind === 'talk' ? { kind: 'doubt', isAnswering: false } : stance;
}

/** Things beside each other, or joined by 'on', are one: 'the chrome on the rims'. */
function namedIn(words: readonly string[], all: readonly Named[]): Named[] {
  const found: { its: Named; isWork: boolean; at: number }[] = [];
  for (const [at, word] of words.entries()) {
    const its = /^[@%]\d+$/.test(word) ? all[Number(word.slice(1))] : undefined;
    if (!its) continue;
    const isWork = word.startsWith('%');
    const last = found.at(-1);
    if (last && last.isWork !== isWork && isJoined(words.slice(last.at + 1, at))) {
      const both = last.its.items.filter((item) => its.items.includes(item));
      const either = [...new Set([...last.its.items, ...its.items])];
      last.its = both.length > 0 ? { items: both, isClear: true } : { items: either, isClear: false };
      last.at = at;
    } else found.push({ its: { ...its }, isWork, at });
  }
  return found.map(({ its }) => its);
}

const isJoined = (between: readonly string[]): boolean =>
  /^(?:on|of|for)?(?: ?(?:the|my))?$/.test(between.join(' '));

/** Lets things that stand by themselves go on with the answer before them, or be answered by the one after them. */
function bound(clauses: readonly Clause[]): Clause[] {
  const all: Clause[] = [];
  let waiting: Clause[] = [];
  let isOpen = false;
  for (const clause of clauses) {
    const last = all.at(-1);
    const follows = last?.sentence === clause.sentence && last.stance.kind === 'answer';
    if (clause.stance.kind === 'things' && follows && isOpen && waiting.length === 0) {
      all.push(listed(last, clause));
      continue;
    }
    if (clause.stance.kind === 'things') {
      waiting.push(clause);
      continue;
    }
    const theirs = waiting.filter(({ sentence }) => sentence === clause.sentence);
    const { stance } = clause;
    const isBare = stance.kind === 'answer' && stance.covers === 'bare';
    all.push(...waiting.filter((each) => !isBare || !theirs.includes(each)).map(unsaid));
    waiting = [];
    if (isBare && theirs.length > 0) {
      all.push(...theirs.map((each) => ({ ...each, stance: { ...stance, covers: 'named' as const } })));
      isOpen = false;
    } else {
      all.push(clause);
      isOpen = stance.kind === 'answer';
    }
  }
  return [...all, ...waiting.map(unsaid)];
}

/** 'Yes to the tank, the magneto': the same answer. 'Yes to all, but the tank': set apart from it. */
function listed({ stance }: Clause, clause: Clause): Clause {
  if (stance.kind !== 'answer') return clause;
  // 'No chrome, just the tank' is no list.
  if (stance.says === 'no' && /\b(?:just|only)\b/.test(clause.words)) return unsaid(clause);
  if (!clause.isBut) return { ...clause, stance: { ...stance, covers: 'named' } };
  const isApart = stance.says === 'yes' && stance.covers !== 'named' && stance.covers !== 'bare';
  return isApart
    ? { ...clause, stance: { ...stance, says: 'no', covers: 'named', isException: true } }
    : unsaid(clause);
}

const unsaid = (clause: Clause): Clause => ({ ...clause, stance: { kind: 'doubt', isAnswering: true } });
