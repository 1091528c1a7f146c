import type { Cost } from '../reading.js';
import type { Token } from '../text/tokens.js';

const text = (tokens: readonly Token[], at: number): string => tokens[at]?.word ?? '';

const ABOUT =
  /^(about|around|roughly|approx|approximately|circa|ca|~|say|maybe|nearly|probably|perhaps|somewhere|near|region|under|over|call|possibly|guess|guessing|ish|upwards)$/;

/** Words before a sum that make it rough, and where they begin. */
export function aboutBefore(tokens: readonly Token[], at: number): { about: boolean; from: number } {
  let from = at;
  let about = false;
  for (let back = at - 1; back >= Math.max(0, at - 3); back -= 1) {
    const word = text(tokens, back);
    if (ABOUT.test(word)) {
      about = true;
      from = back;
    } else if (!/^(the|of|in|round|just|like|on|a|between|it|up|to)$/.test(word)) break;
  }
  if (/^(up)$/.test(text(tokens, at - 2)) && text(tokens, at - 1) === 'to')
    return { about: true, from: at - 2 };
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
    /^(each|apiece|a piece|per piece|a go|a pop|a throw|per side|a side|per end|a corner|per wheel|a wheel|per leg|a leg|per hole|a hole|each one|a unit|per unit|per item|ea|a shoe|per shoe)\b/,
    { each: true },
  ],
  [/^(?:the |per |a )(?:pair)\b/, { pieces: 2 }],
  [/^(?:for the |for a |for both|for the two)(?:pair)?/, { pieces: 2 }],
  [/^(?:the |a |per )set\b/, {}],
  [
    /^(?:plus(?: [.,;!?]|$)|plus (?:the )?vat|\+ ?vat|ex vat|before vat|excluding vat|excl vat|and vat|vat on top|plus vat on top|no vat included|without vat|plus the tax|ex the vat)/,
    { vat: 'plus' },
  ],
  [
    /^(?:inc vat|including (?:the )?vat|incl vat|with (?:the )?vat|vat included|inclusive of vat|including|vat paid|with the vat in|after vat|inc the vat)\b/,
    { vat: 'including' },
  ],
  [
    /^(?:or so|or thereabouts|thereabouts|ish|give or take|odd|roughly|approx|i reckon|i should think|i'd think|i'd say|i think|he reckons|she reckons|they reckon|at a guess|or near enough|near enough|or something|tops|max)\b/,
    { about: true },
  ],
  [
    /^(?:all in|all up|the lot|for the lot|for everything|all told|altogether|in total|together|for all of it|for both|for the whole lot|for them all|for all)\b/,
    { together: true },
  ],
];

/** Reads on after a sum: each, VAT, roughly, the pair, all in. */
export function tailAt(tokens: readonly Token[], at: number): Tail {
  const tail: Tail = { each: false, vat: null, about: false, pieces: null, together: false, length: 0 };
  for (let again = true; again;) {
    again = false;
    const skip = text(tokens, at + tail.length) === ',' ? 1 : 0;
    const ahead = tokens
      .slice(at + tail.length + skip, at + tail.length + skip + 5)
      .map((token) => token.word)
      .join(' ');
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
