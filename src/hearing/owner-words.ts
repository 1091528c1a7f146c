const TOO_DEAR =
  /\bnot (?:at|for) (?:that|this|those|the) (?:price|money|cost|figure|rate)|\bnot (?:at|for) (?:£ ?)?\d|\btoo (?:dear|expensive|pricey|much money)\b|\b(?:for less|cheaper|less money)\b/i;

/** 'Not at that price', 'too dear', 'if you can do it for less': a yes beside it is none to what it is said of. */
export const isTooDear = (text: string): boolean => TOO_DEAR.test(text);

const LATER = /\bask (?:me|us) again\b|\blet['’]s talk\b|\b(?:can|could) we talk\b|\blet me think\b/i;

/** 'Ask me again next week', 'let's talk about it first': neither a yes nor a no. */
export const isPutOff = (text: string): boolean => LATER.test(text);

const COURTESY = String.raw`(?:[ ,.!]*(?:please|thanks?(?: you)?|that['’]s (?:fine|ok|okay|good)|lovely|perfect|do|by me|with me|from me))*[ .!]*`;
const whole = (words: string): RegExp => new RegExp(`^(?:${words})${COURTESY}$`, 'i');
const BARE_YES = whole(
  "yes|yep|yeah|ok|okay|agreed|certainly|of course|fine|please|lovely|perfect|do it|that['’]s (?:fine|ok|okay|good)",
);
const BARE_NO = whole("no|nope|please don['’]t|don['’]t|i['’]d rather not|rather not");

/** A yes or a no that is all of a message; null where there is more in it, or neither. */
export function bareAnswer(text: string): 'yes' | 'no' | null {
  const said = text.trim();
  if (BARE_YES.test(said)) return 'yes';
  return BARE_NO.test(said) ? 'no' : null;
}

const YES_TO_THE_REST =
  /(?<!(?:\bnot|n['’]t|\bcannot)\b[^.;,]{0,20})\b(?:yes|ok|okay|happy|fine|go ahead)\b[^.;,]{0,20}\b(?:all(?: of (?:it|them))?|everything(?: else)?|the rest|the others)\b/i;

/** 'Yes to all of it', 'happy with the rest'; not 'I can't say yes to everything'. */
export const agreesToTheRest = (text: string): boolean => YES_TO_THE_REST.test(text);
