import type { Cost } from '../reading.js';
import type { Token } from '../text/tokens.js';
import { standsAt, wordAt, wordsOf } from '../text/word-at.js';

const ABOUT =
  /^(about|around|roughly|approx|approximately|circa|ca|~|say|maybe|nearly|probably|perhaps|somewhere|near|region|under|over|call|possibly|guess|guessing|ish|upwards)$/;

/** Words before a sum that make it rough, and where they begin. */
export function aboutBefore(tokens: readonly Token[], at: number): { about: boolean; from: number } {
  let from = at;
  let about = false;
  for (let back = at - 1; back >= Math.max(0, at - 3); back -= 1) {
    const word = wordAt(tokens, back);
    if (ABOUT.test(word)) {
      about = true;
      from = back;
    } else if (!/^(the|of|in|round|just|like|on|a|between|it|up|to)$/.test(word)) break;
  }
  if (standsAt(tokens, at - 2, ['up', 'to'])) return { about: true, from: at - 2 };
  return { about, from };
}

/** What words after a sum say of it. */
type Tail = {
  each: boolean;
  vat: Cost['vat'];
  about: boolean;
  pieces: number | null;
  together: boolean;
  length: number;
};

const TAILS: [RegExp, Partial<Omit<Tail, 'length'>>][] = [
  [
    /^(each|apiece|a piece|per piece|a go|a pop|a throw|per side|a side|per end|a corner|per wheel|a wheel|per leg|a leg|per hole|a hole|each one|a unit|per unit|per item|per cylinder|per barrel|per rim|per lever|per cover|per bush|per plate|per shoe|per bearing|per gear|per tooth|per valve|per guide|per seat|per tank|per guard|per pipe|per silencer|per spoke|ea|a shoe|a head|per head|a time|the each|per one|a bore|a valve|a hub|a cover|an end)\b/,
    { each: true },
  ],
  [/^(?:the |per |a )(?:pair)\b/, { pieces: 2 }],
  [/^(?:for the |for a |for both|for the two)(?:pair)?/, { pieces: 2 }],
  [/^(?:the |a |per )set\b/, {}],
  [/^(?:no vat|vat free|no vat on it)\b/, {}],
  [
    /^(?:plus(?: [.,;!?]|$)|plus (?:the )?vat|\+ ?vat|ex vat|before vat|excluding vat|excl vat|ex . vat|excl . vat|exc vat|exc . vat|exclusive of vat|and the vat|vat extra|vat to add|vat to go on|with vat on top|and the vat on top|and vat|vat on top|plus vat on top|no vat included|without vat|plus the tax|ex the vat)/,
    { vat: 'plus' },
  ],
  [
    /^(?:inc vat|including (?:the )?vat|incl vat|with (?:the )?vat|vat included|inclusive of vat|including(?= [.,;]|$)|vat paid|with the vat in|after vat|inc the vat|inc . vat|incl . vat|vat inc|vat inclusive|inclusive|tax in|tax included)\b/,
    { vat: 'including' },
  ],
  [
    /^(?:or so|or thereabouts|thereabouts|ish|give or take|odd|roughly|approx|i reckon|i should think|i think|he reckons|she reckons|they reckon|at a guess|or near enough|near enough|or something|tops|max)\b/,
    { about: true },
  ],
  [
    /^(?:all in|all up|the lot|for the lot|for everything|all told|altogether|in total|all found|for cash|cash|posted|delivered|including postage|inc postage|carriage paid|plus post|plus postage|plus carriage|together|for all of it|for both|for the whole lot|for them all|for all)\b/,
    { together: true },
  ],
];

/** Reads on after a sum: each, VAT, roughly, the pair, all in. */
export function tailAt(tokens: readonly Token[], at: number): Tail {
  const tail: Tail = { each: false, vat: null, about: false, pieces: null, together: false, length: 0 };
  for (let again = true; again;) {
    again = false;
    const skip = wordAt(tokens, at + tail.length) === ',' ? 1 : 0;
    const ahead = wordsOf(tokens, { from: at + tail.length + skip, to: at + tail.length + skip + 5 });
    for (const [pattern, says] of TAILS) {
      const match = pattern.exec(ahead);
      if (match === null || match[0] === '') continue;
      if (says.pieces === 2 && !/pair|both|two/.test(match[0])) continue;
      Object.assign(tail, says);
      tail.length += skip + match[0].trim().split(' ').length;
      again = true;
      break;
    }
  }
  return tail;
}
