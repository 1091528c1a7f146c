import { isTradeWord } from '../tagging/part-index.js';
import type { Chunk } from '../tagging/chunk.js';
import { singulars } from '../text/morphology.js';
import { isEveryday, isListed, isOrdinary } from '../text/ordinary-words.js';
import { wordAt } from '../text/word-at.js';
import { isOpen, isSingle, lettersOf, SINGLE_WORD_COST, type Repair, type Run } from './runs.js';
import { evidence, HALF_SURE, nounSlot, onlyNoun, personSlot, strength, subjectSlot } from './slots.js';
import { soundsLike } from './sound-index.js';

/** Words that carry a sentence, never the name of a part. */
const FUNCTION =
  /^(ones|every|another|history|fella|feller|bloke|chap|gaffer|lad|lads|but|so|or|if|as|with|not|no|the|a|an|and|to|of|in|on|at|off|out|up|for|from|by|is|are|was|were|be|been|has|have|had|it|its|them|they|he|she|we|i|you|me|my|his|her|our|us|this|that|these|those|do|did|does|done|can|will|would|could|should|all|both|one|two|some|any|only|just|too|very|bit|quite|now|then|there|here|when|what|where|who|how|than|over|under|again|back|still|yet|about|into|after|before|same|other|new|old|said|says|say|got|get|go|going|gone|went|want|wants|need|needs|see|make|take|took|send|sent|fit|keep|call|ring|rang|look|looks|well|right|left|good|bad|today|tomorrow|morning|week|day|days|pounds|quid|pair|set|each|ready|side|place|man|thing|things|stuff|lot|time|work|job|bike|shop|people|everything|nothing|something|put|pull|pulled|let|cut|run|ran|hold|held|find|found|give|gave|tell|told|bring|brought|leave|try|tried|turn|turned|move|moved|start|started|check|order|ordered|buy|bought|drop|dropped|pick|picked|clean|use|used|file|weld|bled|timed|built|made|came|come|please|thanks|sorry|okay|most|many|several|few|down|round|along|through|away|across|myself|himself|itself|goes|takes|makes|gets|comes)$/;

/** A window that sound may fill: words without a sense of their own there, a part's name only beside such words. */
function soundable({ chunks, from, to }: Run, open: boolean): boolean {
  const inside = chunks.filter((chunk) => chunk.from < to && chunk.to > from);
  const plain = inside.filter((chunk) => chunk.kind === 'word' || chunk.kind === 'aside');
  return (
    (plain.length > 0 || open) &&
    inside.every((chunk) => /^(word|aside|part|article|of|denial|pronoun|correction)$/.test(chunk.kind))
  );
}

/** Words that point at things, which may stand anywhere a noun does. */
const POINTING =
  /^(ones|every|each|another|middle|luck|has|have|had|got|history|fella|feller|bloke|chap|gaffer|missus|lad|lads|he|she|it|its|they|them|that|this|these|those|one|both|all|i|we|you|me|him|her|us|there|here|what|which|who|everything|nothing|something|thing|things|lot|side|end|rest|others|other|two|some|any|no|not|none|new|old|same|good|bad|left|right|man|people|job|bike|shop|work|is|are|was|were|and|the|a|an|my|his|our|your|their|today|tomorrow|now|then|again|day|week|morning|quid|pounds|pair|set|up|out|off|on|in|back|over|under)$/;

/** Words that say how or how much: no thing, unless an article stands right before ("the never is bent"). */
const ADVERB =
  /^(just|only|but|very|too|bit|quite|still|so|really|pretty|rather|fairly|slightly|badly|nearly|almost|even|mostly|well|also|maybe|probably|always|never|already|again|much|more|less|than|as|like|some|lightly|heavily|totally|completely|proper|properly|not|about|otherwise|though|although)$/;

const TELLS = new Set<Chunk['kind']>(['condition', 'remedy', 'process', 'copula', 'quantity', 'count']);

/** Words of places and of parts' names that stand for themselves wherever they are heard. */
const OWN =
  /^(end|ends|middle|plain|friction|hole|holes|inlet|exhaust|centre|kick|lip|face|edge|seam|flange|boss|bore|skirt|crown|shaft|lug|thread|threads|joint|weld|base|tooth|teeth|spline|splines|taper|lobe|lobes|journal|acid|petrol|grease|rust|paint|chrome|nickel|zinc|brass|steel|iron|rubber|leather|cork|copper|bronze|glass|spare|felt|spring|stay|plate|cover)$/;
/** Who did it. */
const PERSON = /^(butcher|bodger|fool|clown|cowboy|monkey|idiot|muppet|wally|plonker|bodgers|cowboys)$/;
const isOwn = (word: string): boolean => OWN.test(word);

/**
 * How far in sound a name may be, as a share of its phonemes (see soundsLike), by what the words are; all found on the
 * spoken half of the tuning corpora. The fewer other senses the words can have, the farther.
 */
const LIMITS = {
  endsInSmallWord: 0.06,
  onlyNounFits: 0.34,
  noDictionaryHasIt: 0.3,
  strangeWithSmallWords: 0.22,
  everydayWord: 0.22,
  ordinaryWord: 0.26,
  ordinaryWords: 0.28,
  /** Several ordinary words, none of them in the name. */
  noWordShared: 0.16,
  /** "the maine is pitted": the name of a place or somebody, where a thing stands. */
  name: 0.26,
  sure: 0.12,
  sureWhereStrange: 0.2,
} as const;

/** Whether the run is of words that stand where a part may be named, and mean nothing of the trade by themselves. */
function mayBeMisheard(run: Run): boolean {
  const { tokens, chunks, from, to } = run;
  const said = lettersOf(run);
  if (tokens.slice(from, to).some(({ word }) => !/^[a-z]+$/.test(word))) return false;
  if (!nounSlot(chunks, from, to) || personSlot(tokens, chunks, from, to)) return false;
  if (said.some((word) => PERSON.test(word))) return false;
  const article = /^(the|a|an)$/.test(wordAt(tokens, from - 1));
  if (isSingle(run) && !article && ADVERB.test(said[0] ?? '')) return false;
  // What the trade says itself is no slip: "the footrest hole", "on the inlet", "kick shaft".
  return !(said.some(isOwn) && said.every((word) => isOwn(word) || FUNCTION.test(word) || isTradeWord(word)));
}

/** Whether a noun must stand there and the word can't be left as it is, whatever it is. */
function isForced(run: Run): boolean {
  const { chunks, from, to } = run;
  const led = chunks.findLast((chunk) => chunk.to <= from)?.kind;
  const tells =
    led !== undefined &&
    led !== 'place' &&
    chunks.some((chunk) => chunk.from < to && chunk.to > from && TELLS.has(chunk.kind));
  return isSingle(run) && !tells && !POINTING.test(wordAt(run.tokens, from)) && onlyNoun(chunks, from, to);
}

/** How the words of a run stand to the dictionary: what decides how far a name may be from them. */
type Words = {
  said: readonly string[];
  forced: boolean;
  /** Some word is in no dictionary of general words. */
  strange: boolean;
  /** Small words stand after the first. */
  loose: boolean;
  /** The last of several is a small word. */
  open: boolean;
};

function wordsIn(run: Run): Words {
  const said = lettersOf(run);
  return {
    said,
    forced: isForced(run),
    strange: said.some((word) => !singulars(word).some(isOrdinary)),
    loose: said.slice(1).some((word) => FUNCTION.test(word)),
    open: !isSingle(run) && FUNCTION.test(said.at(-1) ?? ''),
  };
}

/** Whether the message is bench talk that lacks a thing where the run stands. */
function lacksAThing(run: Run, { said, forced, strange, open }: Words): boolean {
  const { chunks, from, to } = run;
  const single = isSingle(run);
  const small = FUNCTION.test(said[0] ?? '') || said.every((word) => FUNCTION.test(word));
  if (!forced && (small || !soundable(run, open))) return false;
  // "glass is chipped": a part's name and the words after it.
  if (open && chunks.some((chunk) => chunk.kind === 'part' && chunk.from === from && chunk.to < to))
    return false;
  if (open && !subjectSlot(chunks, from, to)) return false;
  if (!isOpen(run, !single || forced)) return false;
  const context = evidence(chunks, from, to, run.asking);
  if (context < 1 && !(strange && context >= HALF_SURE)) return false;
  if (!single) return true;
  return strength(chunks, from, to) >= 1 && (strange || forced || subjectSlot(chunks, from, to));
}

function limitOf({ said, forced, strange, loose, open }: Words): number {
  if (open) return LIMITS.endsInSmallWord;
  if (forced) return LIMITS.onlyNounFits;
  if (strange) return loose ? LIMITS.strangeWithSmallWords : LIMITS.noDictionaryHasIt;
  if (said.length > 1) return LIMITS.ordinaryWords;
  return isEveryday(said[0] ?? '') ? LIMITS.everydayWord : LIMITS.ordinaryWord;
}

const sharesWord = (name: string, said: readonly string[]): boolean =>
  name.split(' ').some((word) => word.length > 2 && said.includes(word));

/** A recogniser writes words that there are: what no dictionary has is the name of somebody or something. */
const isName = (said: readonly string[]): boolean =>
  said.some((word) => !singulars(word).some((form) => isListed(form) || isTradeWord(form)));

/** The part whose name sounds like the run, where the message lacks a thing there. */
export function bySound(run: Run): Repair | null {
  if (!mayBeMisheard(run)) return null;
  const words = wordsIn(run);
  if (!lacksAThing(run, words)) return null;
  const { said, strange } = words;
  const found = soundsLike(said, isName(said) ? LIMITS.name : limitOf(words));
  if (found === null) return null;
  const single = isSingle(run);
  if (!single && !strange && found.share > LIMITS.noWordShared && !sharesWord(found.name, said)) return null;
  return {
    from: run.from,
    to: run.to,
    name: found.name,
    plural: /s$/.test(said.at(-1) ?? '') && !found.name.endsWith('s'),
    sure: found.share <= LIMITS.sure || (strange && found.share <= LIMITS.sureWhereStrange),
    cost: found.share + (single ? SINGLE_WORD_COST : 0),
  };
}
