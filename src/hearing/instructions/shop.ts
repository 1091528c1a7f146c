import { daySpan } from './day-span.js';
import type { Instruction } from './instruction.js';
import type { Hearer } from './read-instruction.js';

const BARE: readonly (readonly [RegExp, Instruction])[] = [
  [/^(?:undo|undo that|scrub that|scratch that|forget that|take that back|cancel that)$/i, { kind: 'undo' }],
  [/^(?:help|what can (?:you|i) (?:do|say))$/i, { kind: 'help' }],
  [/^(?:the )?(?:shop|house) rules$|^(?:show )?(?:the )?rules$/i, { kind: 'show-rules' }],
  [/^(?:the )?(?:jobs|machines|all jobs|all machines|what's in the shop)$/i, { kind: 'show-jobs' }],
  [/^(?:the )?(?:people|suppliers|owners)$/i, { kind: 'show-people' }],
  [
    /^(?:the |show the |show me the |read (?:me |out )?the )?(?:strip )?list$|^what(?: have|'ve) (?:i|you|we) got(?: down| on (?:the|your) list)?(?: so far)?$|^what's on the list$/i,
    { kind: 'show-list' },
  ],
  [/^(?:the |show the |show me the )?build order$/i, { kind: 'show-steps' }],
  [/^(?:the |show the |show me the )?time ?line$/i, { kind: 'show-timeline' }],
  [
    /^(?:the |show the |show me the |our )?(?:fortnight|next fortnight|two weeks)$/i,
    { kind: 'show-fortnight' },
  ],
  [
    /^(?:the |show the |show me the )?(?:setting[- ]up )?checks$|^(?:the )?setting[- ]up$/i,
    { kind: 'show-checks' },
  ],
];

/** What concerns the shop as a whole: its rules, its closed days, its words, and the lists of what it has. */
export function readShopInstruction(text: string, { today }: Hearer): Instruction | null {
  const bare = BARE.find(([pattern]) => pattern.test(text));
  if (bare) return bare[1];
  const rule = /^(?:set )?rule (\d{1,2})(?: to| is|:)? (.+)$/i.exec(text);
  if (rule) return { kind: 'set-rule', rule: Number(rule[1]), value: rule[2] ?? '' };
  return readClosed(text, today) ?? readWord(text);
}

/** 'Closed 24 December to 2 January', 'Tansy's shut the first two weeks of August', 'I'm on holiday next week'. */
function readClosed(text: string, today: string): Instruction | null {
  const closed =
    /^(?:(?:(we|the shop|shop|us)|(.{2,40}?))(?: is| are|'re|'s|'m| am| will be)? )?(?:closed|shut|on holiday|on their holidays?|away) (.+)$/i.exec(
      text,
    );
  if (!closed) return null;
  const [, , other, when = ''] = closed;
  const days = daySpan(when, today);
  return days && { kind: 'closed', who: other === undefined ? null : other.replace(/^the /i, ''), ...days };
}

function readWord(text: string): Instruction | null {
  const learn =
    /^(?:learn:? ?)?"?([\w' -]{2,30}?)"? (?:means|is what (?:i|we) call) (?:a |an |the )?"?([\w' -]{2,40}?)"?$/i.exec(
      text,
    );
  if (learn)
    return { kind: 'learn-word', said: (learn[1] ?? '').toLowerCase(), part: (learn[2] ?? '').toLowerCase() };
  const unlearn = /^(?:unlearn|forget the word) "?([\w' -]{2,30}?)"?$/i.exec(text);
  return unlearn ? { kind: 'unlearn-word', said: (unlearn[1] ?? '').toLowerCase() } : null;
}
