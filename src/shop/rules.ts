import type { Policy } from './policy.js';

/** A policy that is set by its number in chat, and how its value is said. */
export type Rule = { id: RuleId; path: readonly string[]; says: 'time' | 'days' | 'money' | 'yes-no' };

export type RuleId =
  | 'round-up-at'
  | 'ask-promise-after'
  | 'check-before'
  | 'check-where-lead-over'
  | 'chase-after'
  | 'chase-again-after'
  | 'owner-silence'
  | 'owner-quiet-from'
  | 'owner-quiet-to'
  | 'notices-by-themselves'
  | 'yes-from';

/** The shop's rules in the order shown; their numbers are their places here. */
export const RULES: readonly Rule[] = [
  { id: 'round-up-at', path: ['mechanic', 'roundUpAt'], says: 'time' },
  { id: 'ask-promise-after', path: ['mechanic', 'askPromiseAfter'], says: 'days' },
  { id: 'check-before', path: ['supplier', 'checkBefore'], says: 'days' },
  { id: 'check-where-lead-over', path: ['supplier', 'checkWhereLeadOver'], says: 'days' },
  { id: 'chase-after', path: ['supplier', 'chaseAfter'], says: 'days' },
  { id: 'chase-again-after', path: ['supplier', 'chaseAgainAfter'], says: 'days' },
  { id: 'owner-silence', path: ['owner', 'noticeAfterSilence'], says: 'days' },
  { id: 'owner-quiet-from', path: ['owner', 'quiet', 'from'], says: 'time' },
  { id: 'owner-quiet-to', path: ['owner', 'quiet', 'to'], says: 'time' },
  { id: 'notices-by-themselves', path: ['owner', 'noticesGoByThemselves'], says: 'yes-no' },
  { id: 'yes-from', path: ['owner', 'yesFrom'], says: 'money' },
];

/** A rule's value as it stands. */
export function valueOf(rule: Rule, policy: Policy): unknown {
  return rule.path.reduce<unknown>((value, key) => (value as Record<string, unknown>)[key], policy);
}

/** What was said, as the rule's value; undefined when it can't be one. 'Never' for money means that no sum needs a yes. */
export function parseRule(rule: Rule, said: string): unknown {
  const text = said.trim().toLowerCase();
  switch (rule.says) {
    case 'time': {
      const [, hours, minutes = '00'] = /^(\d{1,2})(?:[:.](\d{2}))?$/.exec(text) ?? [];
      return hours === undefined ? undefined : `${hours.padStart(2, '0')}:${minutes}`;
    }
    case 'days': {
      const days = /^(\d{1,3})(?:\s*(?:working\s*)?days?)?$/.exec(text)?.[1];
      return days === undefined ? undefined : Number(days);
    }
    case 'money': {
      if (/^(never|none|no)$/.test(text)) return null;
      const amount = /^£?\s*(\d+(?:\.\d{1,2})?)$/.exec(text.replace(/,/g, ''))?.[1];
      return amount === undefined ? undefined : Number(amount);
    }
    case 'yes-no':
      if (/^(yes|on|y)$/.test(text)) return true;
      return /^(no|off|n)$/.test(text) ? false : undefined;
  }
}
