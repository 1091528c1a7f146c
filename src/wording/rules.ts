import type { IsoDate } from '../job/state.js';
import type { Policy } from '../shop/policy.js';
import type { Rule, RuleId } from '../shop/rules.js';
import { RULES, valueOf } from '../shop/rules.js';
import type { Answer } from './answer.js';
import { plain } from './answer.js';
import { dayAndYear, sum } from './figures.js';
import type { Line } from './lines.js';
import { clipped, counted, message } from './lines.js';

const NAMES: Readonly<Record<RuleId, string>> = {
  'round-up-at': 'Morning round-up at',
  'ask-promise-after': 'Ask for a date when something is out without one for',
  'check-before': 'Check with a supplier before the day by',
  'check-where-lead-over': 'But only where they have it for more than',
  'chase-after': 'Chase a supplier after a missed day by',
  'chase-again-after': 'Chase once more after',
  'owner-silence': 'Write to an owner after a silence of',
  'owner-quiet-from': 'No messages to owners from',
  'owner-quiet-to': 'until',
  'notices-by-themselves': 'Owners’ notices go by themselves',
  'yes-from': 'An owner’s yes is wanted from',
};

/** A rule's value in words. */
function valueWords(rule: Rule, policy: Policy): string {
  const value = valueOf(rule, policy);
  switch (rule.says) {
    case 'time':
      return String(value);
    case 'days':
      return counted(Number(value), rule.id === 'check-where-lead-over' ? 'day' : 'working day');
    case 'money':
      return value === null ? 'no sum at all (never)' : sum(Number(value), policy.currency);
    case 'yes-no':
      return value === true ? 'yes' : 'no, I show them to you first';
  }
}

/** All of the shop's rules by number, and how they are changed. */
export function rulesText(policy: Policy): Answer {
  const lines: Line[] = RULES.map(
    (rule, index) => `${index + 1}. ${NAMES[rule.id]}: ${valueWords(rule, policy)}`,
  );
  const { days, hours, closed } = policy.calendar;
  return message([
    [{ bold: 'Shop rules' }],
    ...lines,
    `Open ${weekdays(days)}, ${hours.from} to ${hours.to}; closed on public holidays${policy.calendar.region === null ? ' you name' : ''}.`,
    ...(closed.length > 0 ? [`Closed too: ${closed.slice(-4).map(span).join('; ')}.`] : []),
    'To change one: “rule 5: 2 days”. Days off: “closed 24 December to 2 January”, “I’m on holiday 3 to 7 August”.',
  ]);
}

const WEEKDAYS = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat', 'Sun'];

function weekdays(days: readonly number[]): string {
  const names = [...days].sort().map((each) => WEEKDAYS[each - 1] ?? '');
  const inARow = names.length > 2 && Math.max(...days) - Math.min(...days) === names.length - 1;
  return inARow ? `${names[0]} to ${names.at(-1)}` : names.join(', ');
}

const span = ({ from, to }: { from: IsoDate; to: IsoDate }): string =>
  from === to ? dayAndYear(from) : `${dayAndYear(from)} to ${dayAndYear(to)}`;

export function ruleSet(rule: Rule, policy: Policy): Answer {
  return plain(`Set. ${NAMES[rule.id]}: ${valueWords(rule, policy)}.`);
}

const TAKES: Readonly<Record<Rule['says'], string>> = {
  time: 'a time, as in “rule 1: 7.30”',
  days: 'a number of days, as in “rule 5: 2 days”',
  money: 'a sum, as in “rule 11: £75”, or “never”',
  'yes-no': '“yes” or “no”',
};

type RuleProblem =
  | { problem: 'number'; most: number }
  | { problem: 'value'; rule: Rule }
  | { problem: 'refused'; why: string };

export function ruleRefused(refused: RuleProblem): Answer {
  switch (refused.problem) {
    case 'number':
      return plain(`The rules go from 1 to ${refused.most}. “shop rules” shows them.`);
    case 'value':
      return plain(`That rule takes ${TAKES[refused.rule.says]}. It stays as it was.`);
    case 'refused': {
      const why = refused.why === '' ? '' : ` It wants ${clipped(refused.why, 200)}.`;
      return plain(`That can’t be set so; it stays as it was.${why} “shop rules” shows them all.`);
    }
  }
}

/** Days on which the shop (null) or a supplier is closed; nothing is chased or promised for them. */
export function closedText(who: string | null, from: IsoDate, to: IsoDate): Answer {
  const name = who === null ? 'The shop' : who;
  return plain(
    `Noted: ${name} is closed ${from === to ? 'on ' : ''}${span({ from, to })}. Dates are reckoned around it.`,
  );
}

/** Days on which a mechanic isn't in. */
export function awayText(name: string, from: IsoDate, to: IsoDate): Answer {
  return plain(
    `Noted: ${name} is away ${from === to ? 'on ' : ''}${span({ from, to })}. The bench is planned around it.`,
  );
}
