/** What a clause of an owner's covers: things that it names, all that they were asked, or what it names nothing of. */
export type Covers = 'named' | 'all' | 'both' | 'rest' | 'bare';

/** How one clause of an owner's words is taken, its things marked (`markThings`). */
export type Stance =
  /** `isSoft`: 'OK', 'happy with', which say so only to a question that stands before them. */
  | { kind: 'answer'; says: 'yes' | 'no'; covers: Covers; isSoft: boolean; isException: boolean }
  /** Nothing but things: it goes on with, or begins, a clause beside it. */
  | { kind: 'things' }
  /** Too dear, another time, let's talk. `isAgain`: they wish to be asked again. */
  | { kind: 'talk'; isAgain: boolean }
  /** What may narrow an answer beside it, or is half an answer itself. */
  | { kind: 'doubt'; isAnswering: boolean }
  | { kind: 'courtesy' }
  /** Other talk, that changes no answer. */
  | { kind: 'aside' };

const THING = String.raw`(?:(?:the|my|that|this|those|these|its|both|all|just|only|a|new) )*(?:@\w+|%\d+)`;
/** Each way of joining stands once, so that a long list is gone through once. */
const THINGS = `${THING}(?: (?:(?:on|of|for|and|&|plus) )?${THING})*`;
const ONLY_THINGS = new RegExp(`^(?:${THINGS})$`);
const ALL = String.raw`(?:it all|all(?: of)?(?: (?:it|them|that|this|these|those|the (?:work|things|jobs)))?|everything|the (?:whole )?lot)`;
const BOTH = 'both(?: of (?:them|these|those))?';
const REST = String.raw`(?:(?:all )?the (?:rest|others|remainder)(?: of (?:it|them))?|everything else|all else)`;

const FIRM = String.raw`(?:(?:(?:it's|that's) (?:a )?)?(?:yes|yep|yeah|aye)(?: from (?:me|us))?|agreed|(?:i|we) agree|(?:yes )?(?:do |you can |you may )?(?:go ahead|carry on|crack on|get on|proceed))(?: to| with| for| on)`;
const DO = String.raw`(?:(?:yes|yep|yeah|ok|okay) )?(?:you (?:can|may) |let's )?do`;
const SOFT = String.raw`(?:ok|okay|fine|all right|alright|(?:(?:i'm|i am|we're|we are) )?(?:quite |very |perfectly )?(?:happy|fine|ok|okay))(?: with| for| to go ahead with| for you to do)`;
const LEAVE = '(?:leave|leave out|skip|omit|forget)';
const LEFT = String.raw`(?: (?:out|alone|off|be|as (?:it|they) (?:is|are)|as is))?`;
const AWHILE = '(?: for now| for the moment| for the time being)?';
const DO_NOT = String.raw`(?:(?:don't|do not)(?: do| bother with)?|(?:i|we) (?:don't|do not) want|(?:i'd|i would|we'd|we would) rather not(?: do| have)?|rather not(?: do| have)?)`;
const EXCEPT =
  '(?:except|excepting|excluding|barring|bar|apart from|other than|save|save for|except for|just not)';

type Object = { covers: Covers; words: string };
const OBJECTS: readonly Object[] = [
  { covers: 'rest', words: REST },
  { covers: 'all', words: ALL },
  { covers: 'both', words: BOTH },
  { covers: 'named', words: THINGS },
];
const whole = (words: string): RegExp => new RegExp(`^(?:${words})$`);

type Pattern = { pattern: RegExp; stance: Extract<Stance, { kind: 'answer' }> };

function patternsFor({ covers, words }: Object): Pattern[] {
  const given = { kind: 'answer', covers, isSoft: false, isException: false } as const;
  const yes = { ...given, says: 'yes' } as const;
  const no = { ...given, says: 'no' } as const;
  return [
    {
      pattern: whole(
        `${FIRM} ${words}|${DO} ${words}|(?:have|get) ${words} done|${words}(?: is|'s| are)?(?: a)? (?:yes|agreed)`,
      ),
      stance: yes,
    },
    {
      pattern: whole(`${SOFT} ${words}|${words}(?: is|'s| are)? fine (?:by|with) (?:me|us)`),
      stance: { ...yes, isSoft: true },
    },
    {
      pattern: whole(`(?:no|nope) (?:to |for )?${words}${AWHILE}|${LEAVE} ${words}${LEFT}${AWHILE}`),
      stance: no,
    },
    // 'Not all of it' and 'don't do everything' leave open which: only what is named is refused so.
    ...(covers === 'named' || covers === 'rest'
      ? [
          {
            pattern: whole(`not (?:to |for |with )?${words}${AWHILE}|${DO_NOT} ${words}(?: done)?${AWHILE}`),
            stance: no,
          },
          { pattern: whole(`${words}(?: is|'s| are)?(?: a)? no${AWHILE}`), stance: no },
          { pattern: whole(`${EXCEPT} ${words}`), stance: { ...no, isException: true } },
        ]
      : []),
  ];
}

const bare = (says: 'yes' | 'no', isSoft: boolean): Pattern['stance'] => ({
  ...{ kind: 'answer', says, covers: 'bare', isSoft, isException: false },
});
const PATTERNS: readonly Pattern[] = [
  ...OBJECTS.flatMap(patternsFor),
  {
    pattern: whole('(?:no to )?(?:none|nothing)(?: of (?:it|them|that))?'),
    stance: { ...bare('no', false), covers: 'all' },
  },
  {
    pattern: whole('(?:yes|yep|yeah|yes do|(?:yes )?(?:do it|go ahead|do go ahead))'),
    stance: bare('yes', false),
  },
  {
    pattern: whole(
      "(?:ok|okay|agreed|certainly|of course|fine|lovely|perfect|that's (?:fine|ok|okay|good|lovely|perfect))(?: (?:by|with|from) (?:me|us))?",
    ),
    stance: bare('yes', true),
  },
  { pattern: whole("no|nope|don't|(?:i'd )?rather not"), stance: bare('no', false) },
];

const COURTESY =
  /\b(?:please|kindly|(?:many )?thanks(?: (?:very|so) much)?|thank you(?: (?:very|so) much)?|cheers|ta|too$|as well|also|then)\b/g;
const OPENING = /^(?:and|so|well|right|oh|then|or) /;
const GREETING =
  /^(?:(?:hi|hello|hey|morning|evening|good (?:morning|afternoon|evening))(?: \S+){0,2}|dear \S+(?: \S+)?|(?:all the best|best wishes|regards|kind regards)|no (?:rush|hurry|problem|worries)|lovely work|great)?$/;

const DEAR =
  /\bnot (?:at|for) (?:(?:that|this|those|the) (?:price|money|cost|figure|rate)|£|\d)|\btoo (?:dear|expensive|pricey|much)\b|\b(?:for less|cheaper|less money)\b/;
const AGAIN = /\bask (?:me|us) (?:again|later|next|in a)\b|\bnot (?:just )?(?:now|yet)\b/;
const TALK =
  /\b(?:talk|discuss|speak|(?:let me|(?:have|want|need) (?:a|to)) think|think (?:about|over|it over)|hold (?:off|on|fire)|can wait|not sure|unsure|undecided|in two minds)\b/;
const NARROWS =
  /[£]|@x|\b(?:if|unless|provided|providing|assuming|long as|only|first|once|before|until|till|after|when|but|though|although|however|except\w*|bar|apart|excluding|without|other|not|no|none|never|nothing|cannot|maybe|perhaps|might|could|would|should|depend\w*|think|thought|sure|wonder|whether|suppose|say|said|says|see|check|ask|asked|wait|hold|leave|skip|dear|price|cost|quote|much|instead|rather|change|changed|different|wrong|mistake|sorry|one|ones|cancel\w*|scrap|stop|ignore|withdraw\w*|forget|forgotten|hang|late|mind|regret\w*|reconsider\w*|postpone\w*|delay\w*|pause|undo|back out|backing out)\b|n't\b/;
const ANSWERING =
  /\b(?:yes|yep|yeah|no|nope|ok|okay|fine|agreed?|happy|ahead|leave|skip|rather|less|not)\b|n't\b/;
/** A condition holds for what was said before it too, even where it names something. */
const CONDITION = /\b(?:if|unless|provided|providing|assuming|(?:as|so) long as)\b/;

export const isCondition = (words: string): boolean => CONDITION.test(words);

/** A clause without what is only politeness. */
const pared = (words: string): string =>
  words.replace(COURTESY, ' ').replace(/\s+/g, ' ').trim().replace(OPENING, '').trim();

/** An answer in so many words, or nothing but things; null where there is anything else in it. */
export function plainStance(words: string): Stance | null {
  const said = pared(words);
  const answer = PATTERNS.find(({ pattern }) => pattern.test(said));
  if (answer) return answer.stance;
  if (ONLY_THINGS.test(said)) return { kind: 'things' };
  return GREETING.test(said) ? { kind: 'courtesy' } : null;
}

/** What a clause is that is no plain answer. */
export function otherStance(words: string): Stance {
  if (AGAIN.test(words)) return { kind: 'talk', isAgain: true };
  if (DEAR.test(words) || TALK.test(words)) return { kind: 'talk', isAgain: false };
  const isAnswering = ANSWERING.test(words);
  return /[@%]\d/.test(words) || NARROWS.test(words) ? { kind: 'doubt', isAnswering } : { kind: 'aside' };
}
