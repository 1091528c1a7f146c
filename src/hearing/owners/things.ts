import type { Place, Process } from '../../trade/terms.js';
import { contextNouns } from '../binding/compounds.js';
import type { Element, Mention } from '../binding/mentions.js';
import { mentionsOf } from '../binding/mentions.js';
import { settleSenses } from '../binding/senses.js';
import type { Listener } from '../listener.js';
import { understood } from '../read-message.js';
import { isTradeWord } from '../tagging/part-index.js';
import { tag } from '../tagging/tag.js';
import { isOrdinary } from '../text/ordinary-words.js';
import type { Token } from '../text/tokens.js';

/** One thing that an owner was asked about. */
export type AskedOf = {
  number: number;
  /** The trade's term, or the words it was called by. */
  part: string | null;
  place: readonly Place[];
  processes: readonly Process[];
};

/** What a stretch of the owner's words names: the things asked about, or several of which only one may be meant. */
export type Named = { items: number[]; isClear: boolean };

/**
 * Words with each thing that was asked about put as `@n`, a kind of work that was asked for as `%n` (`named[n]` says
 * which), another part as `@x`, a sum as `£` and a date as `#`; marks stand by themselves.
 */
export type Marked = { words: string[]; named: Named[] };

/** Finds what was asked about in an owner's words. */
export function markThings(text: string, asked: readonly AskedOf[], listener: Listener): Marked {
  const { tokens } = understood(text, listener).evidence;
  const tagged = tag(tokens, listener, (word) => isOrdinary(word) || isTradeWord(word));
  const elements = mentionsOf(settleSenses(contextNouns(tagged, tokens), tokens), tokens);
  const named: Named[] = [];
  const put = (sign: '@' | '%', its: Named): string => `${sign}${named.push(its) - 1}`;
  const words = elements.flatMap((element): string[] => {
    if (element.kind === 'mention' && (element.part !== null || element.item !== null)) {
      const its = asMentioned(element, asked);
      return [its.items.length > 0 ? put('@', its) : '@x'];
    }
    if (element.kind === 'process') {
      const { process } = element;
      const items = asked.filter(({ processes }) => processes.includes(process));
      if (items.length > 0) return [put('%', { items: numbersOf(items), isClear: true })];
    }
    return [signOf(element) ?? wordsOf(element, tokens)].flat();
  });
  return { words, named };
}

const numbersOf = (asked: readonly AskedOf[]): number[] => asked.map(({ number }) => number);

function signOf({ kind }: Element): string | null {
  return kind === 'money' ? '£' : kind === 'date' ? '#' : null;
}

const wordsOf = ({ from, to }: Element, tokens: readonly Token[]): string[] =>
  tokens.slice(from, to).map(({ word }) => word);

function asMentioned(mention: Mention, asked: readonly AskedOf[]): Named {
  if (mention.item !== null)
    return { items: numbersOf(asked.filter(({ number }) => number === mention.item)), isClear: true };
  const fitting = asked.filter((each) => fits(each, mention));
  const isAll = mention.part?.plural === true || mention.both || mention.extent === 'whole';
  return { items: numbersOf(fitting), isClear: fitting.length === 1 || (isAll && mention.extent !== 'some') };
}

/** A place said must not contradict the thing's own. */
function fits({ part, place }: AskedOf, { part: named, places }: Mention): boolean {
  if (named === null || part !== named.part) return false;
  if (place.length === 0 || places.length === 0) return true;
  return places.every((each) => place.includes(each)) || place.every((each) => places.includes(each));
}
