import { mentionsOf, type Mention } from './binding/mentions.js';
import type { Gate } from '../trade/terms.js';
import type { Question, QuestionTopic } from './reading.js';
import type { Chunk, ChunkOf } from './tagging/chunk.js';
import { joinTokens, type Token } from './text/tokens.js';

const TOPICS: [QuestionTopic, RegExp][] = [
  ['where', /^(so |and |right )?where('s|s)? (?!do (i|we) start)/],
  ['photos', /\b(photos?|pictures?|pics?|snaps?|images?|photographs?)\b/],
  [
    'overdue',
    /\bwho (do|should|shall|must|can) (i|we) (need to |have to |still )?(ring|phone|call|chase)\b|\bwho (needs|wants) (ringing|chasing|a ring)\b|\bwho owes (me|us)\b/,
  ],
  ['next', /\bwhat (have|'ve) (i|we) got (to do|on)\b/],
  [
    'blocking',
    /\b(left|still|need|needs|want|wants|got|have|anything|what) (to order|ordering)\b|\bnot ordered|\b(have|has) (i|we) (still )?not |\b(haven't|hasn't|not) (i |we )?(been )?done\b|\bhaven't (i|we) ordered|\b(what|which)\b.*\b(needs?|wants?|(has|have|got) (to|still to)|still to|to) (be )?(go|going|sent|send)\b|\bwhat(?:'s| is|s) going (out )?(to|for)\b|\b(which|what)( \w+){0,2} (wants?|needs?) (chroming|plating|painting|blasting|rewinding|regrinding|relining|doing)\b|\b(am|are) (i|we) (all right|alright|ok|okay|good|clear|ready) to\b|\bcan (i|we) (now )?(fit|start|build|put|refit|assemble|close) /,
  ],
  [
    'holding',
    /\bwhat(?:'s| is|s) (still |all )?(out|away)\b|\bwhat(?:'s|s)? .{2,40}('s |s )?(still )?got$|\bstill to come\b|\bwhat(?:'s| is|s) (to come|coming|still due|due) from\b/,
  ],
  [
    'holding',
    /\b(what (have|has|'ve) .*(got )?(waiting|out|away|left) (on|with|at)|gone to .* not (been |come )?(returned|back)|which (parts|bits|things) (are|have) .*(at|with|gone to))\b/,
  ],
  ['ready', /\bready (to|for)\b|\bcan (we|i) (still )?(make|hit|do it (by|for)) /],
  [
    'blocking',
    /\b(stopping|blocking|blocks|stops|holding (us |me |it |this |that |things |everything |the \w+ )?(up|back)|hold(s|ing)? up|hold up|anything to stop|to stop (us|me)|in the way|waiting (on|for)|wait(ing)? on|stuck on|keeping us|keeping me|preventing|hung up on|bottleneck|what's left|what is left|left to do before|still need(ed)?|needed before|delaying|can't (i|we)|why (isn't|aren't|can't|haven't|hasn't)|what else (do|does) .* need before|standing between|outstanding before|missing for|what do (we|i) (still )?need)\b/,
  ],
  [
    'overdue',
    /\b(overdue|past due|late|behind|past (its|their|the) (date|due)|should have been back|who('s| is) late|chase|chasing|outstanding(?! (at|with)\b)|slipp(ed|ing)|owes? us|running over)\b/,
  ],
  [
    'holding',
    /\b(what('s| is) (still )?outstanding (at|with)|what (does|do|has|have|'s|is) .*(got|have|holding|hold) (of|for|that)|(of|from) ours|of mine|hanging on to|sitting on|hung on to|how many .* (at|with)|bits (have|are|does|do|has|of)|has .* got (of|for)|got of|have of|still have (our|my|any|the)|still holding|still got|what's at|what is at|what have .* got|what('s| is) (away )?(with|at|in) the|list .* (at|with))\b/,
  ],
  [
    'agreed',
    /\b(agree(d)?|ok('d|ayed)?|okay(ed)?|said yes|say yes|approve[ds]?|given the (go ahead|nod)|answered|heard (back )?from|come back to (me|us)|go[- ]ahead|signed off|happy with|authorised|said about the|the nod|green light)\b/,
  ],
  [
    'cost',
    /\b(how much|cost(s|ing)?|price[ds]?|bill|spent|owe|quote[d]?|charge[ds]?|total|running to|budget|what did .* pay|invoice|come to|worth|pay|paid)\b/,
  ],
  [
    'next',
    /\b(what('?s| is) (next|on)|(what|which) .*\bnext\b|be getting on with|next job|what next|do next|what (should|shall|can|do) (i|we) (do|start|get on with|be doing|crack on)|where do (i|we) start|what now|to do today|on today|do today|get on with|do first|start with|job for today|on the list (for )?today|what am i doing|crack on with|tackle|what can i)\b/,
  ],
  [
    'history',
    /\b(history|when did (?!(they|he|she) (say|promise|reckon))|what (have|did) (we|i) (do|done)|what happened|has happened|'s happened|have we (ever|already|had)|did we (ever|already|do|fit|send|order)|did i (ever|already|do|fit|send|order)|what's been done|been done|what work|work was done|who did|last time|previously|story (of|with|on)|have i (already )?)\b/,
  ],
  [
    'findings',
    /\b(what (was|were) found|what (did|have) (i|we|you) (find|found|say|said|write|written|measure|note|noted|see|put|get|got)|what('s| is| was) (the matter|wrong|up) with|wrong with|findings?|condition of|state of|what (was|were|is|are) the (\w+ ){0,5}(like|at|measurements?|readings?|clearance|size)|how (was|were|bad|is|worn|did)|what size|what (was|is|were|'s) the|what torque|measure(d|ment|ments)?|readings?|how bad|any (cracks|wear|damage)|what did .* (mic|measure|come out))\b/,
  ],
  [
    'ready',
    /\b(when|ready|finish(ed)?|done by|be done|how long|coming (on|along)|getting on|how far|eta|back by|on time|due (back)?|expect(ed|ing)?|what date|which day|on track|here yet|in yet|back yet|has .* (come|arrived|turned up)|(is|are) .* back|have (we|i) got .* back|did .* (arrive|come)|how soon|hand ?over|complete|how (are|'re) we doing|how's it (going|coming|looking)|are we on for|on schedule|running to time)\b/,
  ],
  [
    'where',
    /\b(where|who('s| is) doing|which (supplier|box|bag|tin|shelf|tray|drawer)|what (box|bag|tin|shelf|tray|drawer)|who('s| has) got|who('s| is) got|whereabouts|find the|gone to|any (sign|news|word|update) (of|on|from|about)|any news|any update|seen the|have you seen|still (out|away|at))\b/,
  ],
];

const GATES: [Gate, RegExp][] = [
  ['road-tested', /\b(road[- ]?test(ed|ing)?|on the road|test ride|riding it|rideable|mot)\b/],
  [
    'parts-ordered',
    /\b(parts (all )?(being )?order(ed)?|order(ing)? (all )?(the )?parts|everything ordered|all ordered|parts ordered|ordering|ordered)\b/,
  ],
  [
    'sublet-out',
    /\b(sublets?( out)?|sent out|sending out|send(ing)? (everything|it all|stuff|things) out|going out to|out to suppliers|outside work|sublet-out)\b/,
  ],
  ['inspected', /\b(inspect(ed|ion|ing)?|assess(ed|ment))\b/],
  [
    'reassembled',
    /\b(reassembl\w*|re-assembl\w*|assembl\w*|build(ing)? (it |her |them |us |the .* )?(back )?up|building up|build up|put(ting)? (it |her |the .* )?(back )?together|going back together|back together|built( up)?|rebuild(ing)?|building|build|boxing (it |her )?up|reassembly|go(ing)? together)\b/,
  ],
  [
    'stripped',
    /\b(strip(ped|ping|down)?|stripp(ed|ing)( down)?|dismantl\w*|tear ?down|taken? apart|taking (it )?apart)\b/,
  ],
];

const ASKS =
  /^(what|got (a|any) (photos?|pictures?|pics?)|what's|where|where's|when|when's|how|how's|who|who's|whose|which|why|history (of|on)|findings (of|on|for)|(photos?|pictures?) (of|for)|is|are|has|have|did|do|does|can(?!'t)|could|should|shall|will|would|was|were|any|got any|are we|am i|show|tell (me|us|him)|remind|list|give|anything|status|whats|wheres|whens|hows|whos)\b/;
const ASKS_ANYWHERE =
  /\b(what('s| is| are| do| did| have| has| does| was| were)|where('s| is| are| did| have)|when('s| is| are| will| did| do| can)|how (much|long|many|bad|soon)|who('s| has| is)|show me|tell me|remind me|any (news|word|sign)|do you know|have we|did we|did i|can you tell|could you tell|which (box|bag|tin|shelf))\b/;
/** "can do", "will do again", "have ordered", "should be ready": no questions, though they begin like one. */
const NO_QUESTION =
  /^(can you (put|note|log|write|add|record|jot|make|remember|order|get|find|chase|ring|send|stick|change|mark|scrub|cross)\b|could you (put|note|log|write|add|record|jot|make|remember|order|get|find|chase|ring|send|stick|change|mark|scrub|cross)\b|did (the|both|all|up|it|them|that|his|new|a)\b(?!.*(\?| (ok|agree|say|want|come|get|arrive|turn|go|approve)\b))|(can|could) (do|make|fit|get|straighten|weld|braze|fix|mend|sort|use|re-?use|save|turn|take|see|go|live|stay|wait|dress|clean|polish|tap|bush|sleeve|beat|knock|pull)\b|will do|will be|will need|will want|have (to|ordered|sent|got|a look|another)|has (to|gone|come|been)|had|do (it|the|that|them|not)|does (it|not)|should be|could (be|do)|is (fine|good|back|cracked)|are (fine|good|back)|would be|can be|show some|give (it|them|him|her)|when (the|i|we|it|you|he)\b(?!.*\?)|any (spare|other)|which (is|means|was)|what a\b|how about\b(?!.*\?)|was (fine|ok)|were|am going|will (ring|send|order|try|fit|get|have|make|go|give|check)|do not|list of)/;

/** Letters of the longest message that asks without a question mark or a question's opening: longer ones tell. Found on the tuning corpora. */
const LONGEST_QUESTION = 120;

/** Whether a message asks. */
export function asks(text: string): boolean {
  const plain = text
    .trim()
    .toLowerCase()
    .replace(/’/g, "'")
    .replace(
      /^(tell you what|i tell you what|and|so|right|ok|okay|um|er|erm|well|now|hey|oi|quick one|question|hi|hello|morning|mate|evening|alright|by the way|also|then|right then|remind me|just|please)[, ]+(?=\S)/,
      '',
    );
  if (/\?\s*$/.test(plain)) return true;
  if (ASKS.test(plain) && !NO_QUESTION.test(plain)) return true;
  return (
    ASKS_ANYWHERE.test(plain) &&
    plain.length < LONGEST_QUESTION &&
    !/\b(see|check|know|find out|not sure|wonder|forgot|remember|depends on|depending on)\b/.test(plain) &&
    /^(\S+ ){0,4}(what|where|when|how|who|show|tell|remind|any|do you|have we|did)/.test(plain)
  );
}

/** The part asked about, compounds joined ("rocker bolts"). */
const namedPart = (tokens: readonly Token[], chunks: readonly Chunk[]): string | null =>
  mentionsOf(chunks, tokens).find(
    (element): element is Mention => element.kind === 'mention' && element.part !== null,
  )?.part?.part ?? null;

/** What a question is about, or null where nothing of ours is asked for. */
export function questionOf(tokens: readonly Token[], chunks: readonly Chunk[]): Question | null {
  const text = joinTokens(tokens)
    .toLowerCase()
    .replace(/’/g, "'")
    .replace(/(\w) 's/g, "$1's");
  const about = TOPICS.find(([, pattern]) => pattern.test(text))?.[0];
  // "Who do I need to ring?" asks about no ring.
  const part = /\b(to|i|we) ring\b/.test(text) ? null : namedPart(tokens, chunks);
  const supplier =
    chunks.find(
      (chunk): chunk is ChunkOf<'supplier'> =>
        chunk.kind === 'supplier' && !/^(the )?suppliers$/i.test(chunk.supplier),
    )?.supplier ?? null;
  const gateAsked = GATES.find(([, pattern]) => pattern.test(text))?.[0] ?? null;
  if (about === undefined) {
    if (gateAsked !== null) return { about: 'blocking', gate: gateAsked, part, supplier };
    if (chunks.some((chunk) => chunk.kind === 'stored'))
      return { about: 'where', gate: null, part, supplier };
    return part === null ? null : { about: 'findings', gate: null, part, supplier };
  }
  const gate =
    about === 'blocking' || about === 'ready' || about === 'next' || about === 'overdue' ? gateAsked : null;
  return { about, gate, part, supplier };
}
