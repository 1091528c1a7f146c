import { daySpan } from './day-span.js';
import type { Instruction } from './instruction.js';
import type { Known } from '../listener.js';
import { processesOf } from '../../trade/processes.js';
import type { Hearer } from './read-instruction.js';

const BARE: readonly (readonly [RegExp, Instruction])[] = [
  [/^(?:undo|undo that|scrub that|scratch that|forget that|take that back|cancel that)$/i, { kind: 'undo' }],
  [/^(?:help|what can (?:you|i) (?:do|say))$/i, { kind: 'help' }],
  [/^(?:the )?(?:shop|house) rules$|^(?:show )?(?:the )?rules$/i, { kind: 'show-rules' }],
  [/^(?:the )?(?:jobs|machines|all jobs|all machines|what's in the shop)$/i, { kind: 'show-jobs' }],
  [/^(?:the )?(?:people|suppliers|owners)$/i, { kind: 'show-people' }],
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

const LIST =
  /^(?:the |show the |show me the |read (?:me |out )?the )?(?:strip )?list$|^what(?: have|'ve) (?:i|you|we) got(?: down| on (?:the|your) list)?(?: so far)?\??$|^what's on the list\??$/i;

/** What is on the list, asked for or asked about. */
export const readList = (text: string): Instruction | null =>
  LIST.test(text) ? { kind: 'show-list' } : null;

/** What concerns the shop as a whole: its rules, its closed days, its words, and the lists of what it has. */
export function readShopInstruction(text: string, hearer: Hearer): Instruction | null {
  const bare = BARE.find(([pattern]) => pattern.test(text));
  if (bare) return bare[1];
  const rule = /^(?:set )?rule (\d{1,2})(?: to| is|:)? (.+)$/i.exec(text);
  if (rule) return { kind: 'set-rule', rule: Number(rule[1]), value: rule[2] ?? '' };
  return readClosed(text, hearer) ?? readWord(text);
}

/** 'Closed 24 December to 2 January', 'Tansy's shut the first two weeks of August', 'I'm on holiday next week'. */
function readClosed(text: string, { today, known }: Hearer): Instruction | null {
  const closed =
    /^(?:(we|the shop|shop|us|i)|(.{2,40}?))?(?: is| are|'re|'s|'m| am| will be)? ?\b(closed|shut|on (?:their )?holidays?|away) (.+)$/i.exec(
      text,
    );
  if (!closed) return null;
  const [, self, other, state = '', when = ''] = closed;
  const days = daySpan(when, today);
  if (days === null) return null;
  const isOurs = self !== undefined || (other === undefined && state !== 'away');
  if (!isOurs && !isAway(other ?? '', state, known)) return null;
  const who = /^i$/i.test(self ?? '') ? 'i' : isOurs ? null : (other ?? '').replace(/^the /i, '');
  return { kind: 'closed', who, ...days };
}

/** Things are away and shut too: only somebody known is, or a trade that is closed, or whoever has a holiday. */
function isAway(who: string, state: string, known: Known): boolean {
  if (/holiday/i.test(state)) return true;
  const said = who.replace(/^the /i, '').toLowerCase();
  const names = known.suppliers.flatMap(({ name, also }) => [name, ...(also ?? [])]);
  const isKnown = names.some((name) =>
    ` ${name.toLowerCase().replace(/[’']s\b/g, '')} `.includes(` ${said} `),
  );
  return isKnown || (!/^away$/i.test(state) && processesOf(said).length > 0);
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
