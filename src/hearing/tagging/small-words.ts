import type { Token } from '../text/tokens.js';
import type { Quantity } from '../../trade/terms.js';
import { noteBeginnings } from './beginnings.js';
import type { Chunk, Meaning } from './chunk.js';
import { matches } from './phrase-index.js';

const table = new Map<string, Meaning>();
const add = (meaning: Meaning, said: string): void => {
  for (const phrase of said.split('|')) table.set(phrase.replace(/[ ]/g, ''), meaning);
};

add({ kind: 'article', definite: true }, 'the|his|her|its|their|my|our|your');
add({ kind: 'article', definite: false }, 'a|an|some|any|another|one');
add(
  { kind: 'copula' },
  "is|are|was|were|'s|'re|be|been|being|am|has|have|had|'ve|'d|looks|look|looked|seems|seem|feels|feel|felt|got|gets|get|gone|went|turned out|appears|measures|measured|mics|mikes|miked|reads|read|comes out at|came out at|come out at|comes in at|came in at|come in at|works out at|came up|sits at",
);
add(
  { kind: 'of' },
  'of|in|on|inside|from|at|off|for|under|behind|to|around|round|into|by|with|through|between|over|next to|against|along|across|near|beside|beneath|above|below|close to|just above|just below|out of',
);
add({ kind: 'and' }, 'and|&|plus|then|along with|together with');
add(
  { kind: 'denial' },
  "no|not|without|never|none|nothing|neither|nor|isn't|aren't|wasn't|weren't|doesn't|don't|didn't|hasn't|haven't|ain't|can't see any|couldn't find any|no sign of any|free of|free from|no sign of|no signs of|no trace of|no evidence of|not a|not any|without any|can't find any|cannot see any|clear of|zero|no real|no obvious|no visible|won't|wouldn't|couldn't",
);
add(
  { kind: 'correction' },
  'no sorry|sorry no|no wait|wait no|i mean|no i mean|sorry i mean|scratch that|make that|correction|no actually|actually no|my mistake|no hang on|hang on no|no tell a lie|tell a lie|i tell a lie|or rather|rather|no scratch that|no make that|no its|sorry|no hold on|no not that|beg your pardon|no my mistake|oops|whoops|er no|erm no|no wait a minute|strike that|no strike that|as you were|wait|no no|nope|not that|scrub that|no scrub that|cancel that|forget that|ignore that|what am i saying|or was it|no i tell a lie|let me start again|should say|i should say|on second thoughts|on second thought|second thoughts|changed my mind|i meant|i do mean|meant to say|i meant to say|better make it|better make that|well no|no its actually|its actually|no hang about|hang about no|wait up|hold up|hold your horses|not so fast|no fibber|i lie|no i lie|silly me|daft me|slip of the tongue|wrong way round sorry|let me correct that|correct that|strike it',
);
add(
  { kind: 'pronoun', refers: 'last' },
  'it|them|they|that one|this one|those|these|that|these ones|those ones|this',
);
add(
  { kind: 'pronoun', refers: 'all' },
  'all of it|all of them|all of those|the lot|everything|everything else|the whole lot|both of them|they all|them all|all these|all those|these all|those all|all of these',
);
add(
  { kind: 'pronoun', refers: 'other' },
  'other side|the other side|other one|the other one|the other|the other end|other end|its mate|its twin|its partner|opposite side|the opposite side|opposite one|the opposite one|other hand one|the other hand|the rest|rest of them|the rest of them|the others|the remainder',
);
add(
  { kind: 'pronoun', refers: 'same' },
  'same with|same for|same on|same goes for|same again for|same again on|same again with|ditto for|ditto with|ditto on|likewise for|likewise with|likewise|same story with|same story on|the same with|the same for|the same goes for|the same on|same thing with|same thing on|and the same for|ditto|same as|same problem with|same problem on|same treatment for|so is|so are|so has|so have|so does|so was',
);
add(
  { kind: 'also' },
  'too|as well|worse|even worse|just as bad|no better|as bad|just as worn|not much better|in the same state|in the same condition|in no better shape|equally bad|in the same boat|same state|same condition|also|the same|same|same again|do that one as well|likewise too|just the same|identical|and all',
);

const quantityTable = new Map<string, Quantity>();
const names: [Quantity, string][] = [
  ['diameter', 'diameter|dia|diam|od|id|outside diameter|inside diameter|across|in diameter'],
  ['bore', 'bore|bores|bored|bore size'],
  [
    'length',
    'length|before top|before top dead centre|before tdc|btdc|advance|full advance|fully advanced|long|overall length|centres|width|wide|thickness|thick|height|pitch|free height',
  ],
  ['depth', 'depth|deep'],
  ['clearance', 'clearance|clearances|play|side clearance|running clearance|up and down play'],
  [
    'runout',
    'runout|runs out|out of true|running out|out|wobble|bent by|bend|bowed by|eccentricity|wander|buckle',
  ],
  ['flatness', 'flatness|bow|warp|warped|warped by|out of flat|bowed|distortion|warpage'],
  ['gap', 'gap|gaps|end gap|gapped'],
  ['taper', 'taper|tapered'],
  ['ovality', 'ovality|oval|out of round'],
  ['end-float', 'end float|end play|float|side float|axial play'],
  ['free-length', 'free length|uncompressed|relaxed length'],
  ['deflection', 'deflection|sag|slack|free play|up and down|up and down in the middle|movement|whip'],
  ['torque', 'torque'],
  ['pressure', 'pressure|compression|pumped to|compressions|inflated to|blown up to|pumped up to'],
  ['voltage', 'voltage|output|charging at|charges at|volts'],
  ['resistance', 'resistance|primary resistance|secondary resistance'],
  ['temperature', 'temperature|temp|heated to'],
  ['tread', 'tread|tread depth'],
  ['mass', 'weight|weighs|mass|weighs in at'],
];
for (const [quantity, said] of names)
  for (const phrase of said.split('|')) quantityTable.set(phrase.replace(/[ -]/g, ''), quantity);

noteBeginnings(table.keys());
noteBeginnings(quantityTable.keys());

const at = (from: number, to: number, meaning: Meaning): Chunk => ({ ...meaning, from, to });

/** Little words of the sentence, and what is measured. */
export function smallWords(tokens: readonly Token[]): Chunk[] {
  const found = matches<Meaning>(tokens, (key) => table.get(key)).map((match) =>
    at(match.from, match.to, match.means),
  );
  const quantities = matches<Quantity>(tokens, (key) => quantityTable.get(key)).map((match) =>
    at(match.from, match.to, { kind: 'quantity', quantity: match.means }),
  );
  const markers = tokens.flatMap((token, index): Chunk[] =>
    token.kind === 'number' &&
    tokens[index + 1]?.text === ')' &&
    (index === 0 || /^[\n.;]$/.test(tokens[index - 1]?.text ?? ''))
      ? [at(index, index + 2, { kind: 'break', strength: 'full' })]
      : [],
  );
  return [
    ...found,
    ...quantities,
    ...markers,
    ...tokens.map((token, index) => at(index, index + 1, single(token))),
  ];
}

function single(token: Token): Meaning {
  if (token.kind === 'mark') {
    if (/^[.;!?:•\n]$/.test(token.text)) return { kind: 'break', strength: 'full' };
    if (/^[,–—-]$/.test(token.text)) return { kind: 'break', strength: 'comma' };
    if (token.text === '&' || token.text === '+') return { kind: 'and' };
  }
  return table.get(token.word) ?? { kind: 'word', word: token.word };
}
