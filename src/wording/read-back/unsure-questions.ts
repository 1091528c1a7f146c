import type { ItemReading } from '../../hearing/reading.js';
import { rivals, type Rival } from '../../hearing/sureness/rivals.js';
import type { Field } from '../../hearing/sureness/evidence.js';
import { dateOfDay, dayNumber } from '../../plan/days.js';
import type { Act, Remedy } from '../../trade/terms.js';
import type { Speaker } from '../answer.js';
import { day, money } from '../figures.js';
import { capital } from '../lines.js';
import { remedyName } from '../terms.js';
import { plural } from '../things.js';
import { likeNamed } from './like-named.js';
import type { Told } from './told.js';

/** What could be meant instead; null: nothing of the kind. */
export type Choice = { label: string; instead: Partial<ItemReading> | null };
export type Question = { line: string; choices: Choice[] };

/**
 * A short question about one field, with the likeliest other answers; null for a field that there is nothing to ask about.
 * Where several things were spoken of it says which it means.
 */
export function askAbout(field: string, item: ItemReading, told: Told, speaker: Speaker): Question | null {
  const asked = questionOn(field, item, told, speaker);
  const several = (told.said?.reading.items.length ?? 0) > 1;
  if (asked === null || !several || item.part === null || asked.line.includes(item.part)) return asked;
  return {
    ...asked,
    line: `${capital(item.part)}: ${asked.line.charAt(0).toLowerCase()}${asked.line.slice(1)}`,
  };
}

function questionOn(field: string, item: ItemReading, told: Told, speaker: Speaker): Question | null {
  const others = (of: Field): Rival[] =>
    told.said === null ? [] : rivals(told.said.reading, item, of, speaker.today);
  switch (field) {
    case 'act':
      return whatWasDone(item, others('act'));
    case 'item':
      return whichNumber(item, others('item'));
    case 'part':
      return whichThing(item, told, others('part'));
    case 'outcome':
      return whichOutcome(item);
    case 'remedy':
      return whatToDo(item, others('remedy'));
    case 'supplier':
      return whoHasIt(item, others('supplier'));
    case 'due':
      return whichDay(item, others('due'), speaker);
    case 'cost':
      return whichCost(item, others('cost'));
    case 'place':
      return whichSide(item);
    default:
      return null;
  }
}

const right = (line: string, choices: Choice[] = []): Question => ({ line: `${line}: right?`, choices });

function whichNumber({ item }: ItemReading, others: readonly Rival[]): Question | null {
  if (item === null) return null;
  const choices = others.map((instead) => ({ label: `Number ${instead.item ?? ''}`, instead }));
  return right(`Number ${item}`, choices);
}

/** Other things named in the message, then what is on the list already under a name like it; else that it was no thing. */
function whichThing(item: ItemReading, told: Told, others: readonly Rival[]): Question | null {
  const named = others.flatMap(({ part }) => part ?? []);
  const alike = item.part === null ? [] : likeNamed(item.part, told.before);
  const choices = [...new Set([...named, ...alike])]
    .slice(0, 2)
    .map((part): Choice => ({ label: capital(part), instead: { part } }));
  if (item.part === null) return choices.length === 0 ? null : { line: 'Which thing was that?', choices };
  const several = (told.said?.reading.items.length ?? 0) > 1;
  const none: Choice[] = several ? [{ label: 'Leave it out', instead: null }] : [];
  return right(`I took that to be the ${item.part}`, [...choices, ...none]);
}

function whoHasIt({ supplier }: ItemReading, others: readonly Rival[]): Question | null {
  const choices = others.slice(0, 2).map((instead) => ({ label: instead.supplier ?? '', instead }));
  if (supplier === null) return choices.length === 0 ? null : { line: 'Who is it with?', choices };
  return right(`I took ${supplier} to have it`, [
    ...choices,
    { label: 'Nobody', instead: { supplier: null } },
  ]);
}

/** 'Next Tuesday' is taken as next week's; the nearer one may be meant, where it is still to come. */
function whichDay({ due }: ItemReading, others: readonly Rival[], speaker: Speaker): Question | null {
  const said = others.flatMap((rival) => rival.due ?? []);
  if (due === null) {
    const choices = said.slice(0, 2).map((each) => ({ label: day(each, speaker), instead: { due: each } }));
    return choices.length === 0
      ? null
      : { line: 'Is there a day for it?', choices: [...choices, { label: 'No day', instead: {} }] };
  }
  const sooner = dateOfDay(dayNumber(due) - 7);
  const later = dateOfDay(dayNumber(due) + 7);
  const other = said[0] ?? (sooner > speaker.today ? sooner : later);
  const days = [due, other].sort();
  return {
    line: `Which day: ${days.map((each) => day(each, speaker)).join(' or ')}?`,
    choices: days.map((each) => ({ label: day(each, speaker), instead: { due: each } })),
  };
}

function whichCost(item: ItemReading, others: readonly Rival[]): Question | null {
  const { cost, count, part } = item;
  const sums = others.flatMap((rival) => rival.cost ?? []);
  if (cost === null) {
    const choices = sums.slice(0, 2).map((each) => ({ label: money(each), instead: { cost: each } }));
    return choices.length === 0
      ? null
      : {
          line: part === null ? 'What does it cost?' : `What does the ${part} cost?`,
          choices: [...choices, { label: 'Nothing said', instead: {} }],
        };
  }
  const figure = money({ ...cost, each: false });
  if (count === null || count < 2)
    return right(
      `${capital(figure)}${part === null ? '' : ` for the ${part}`}`,
      sums.slice(0, 2).map((each) => ({ label: money(each), instead: { cost: each } })),
    );
  return {
    line: `${capital(figure)} for each, or for ${part === null ? 'them all' : `all ${count} ${plural(part)}`}?`,
    choices: [
      { label: 'Each', instead: { cost: { ...cost, each: true } } },
      { label: 'All together', instead: { cost: { ...cost, each: false } } },
    ],
  };
}

/** Where nothing was decided there is nothing to ask, unless the message has words of a decision that weren't taken for one. */
function whatToDo({ remedy, processes }: ItemReading, others: readonly Rival[]): Question | null {
  if (remedy === null && processes.length === 0 && others.length === 0) return null;
  const usual: Remedy[] = ['repair', 'send-out', 'replace'];
  const words: Partial<Record<Remedy, string>> = {
    repair: 'Repair here',
    'send-out': 'Send out',
    replace: 'Replace',
    check: 'Look again',
  };
  const named = others.flatMap((rival) => rival.remedy ?? []);
  const rest = [...new Set([...named, ...usual])].filter((each) => each !== remedy);
  const said =
    remedy === null ? [] : [{ label: capital(remedyName(remedy, processes)), instead: { remedy } }];
  return {
    line: 'What is to be done with it?',
    choices: [
      ...said,
      ...rest.slice(0, 3 - said.length).map((each) => ({
        label: words[each] ?? capital(remedyName(each, [])),
        instead: { remedy: each },
      })),
    ],
  };
}

const DONE: Partial<Record<Act, string>> = {
  finding: 'Only looked at',
  stripped: 'Taken off',
  ordered: 'Ordered',
  sent: 'It has gone',
  promised: 'A day was given',
  back: 'It is back',
  fitted: 'Fitted',
  tested: 'Tested',
};

const mayHaveGone = ({ remedy, supplier }: ItemReading): boolean =>
  remedy === 'send-out' || supplier !== null;

/** Named, and nothing told of it. */
const isUntold = ({ remedy, conditions, readings, processes, cost, due }: ItemReading): boolean =>
  remedy === null &&
  cost === null &&
  due === null &&
  conditions.length + readings.length + processes.length === 0;

/** What else may have been done; what has gone and what is still to go are told apart first. */
function whatWasDone(item: ItemReading, others: readonly Rival[]): Question | null {
  const { act } = item;
  const named = others.flatMap((rival) => rival.act ?? []).filter((each) => DONE[each] !== undefined);
  if (act === 'sent' || (act === 'finding' && named.length === 0 && (mayHaveGone(item) || isUntold(item))))
    return {
      line: 'Has it gone, or is it still to go?',
      choices: [
        { label: 'It has gone', instead: { act: 'sent' } },
        { label: 'Still to go', instead: { act: 'finding', remedy: 'send-out' } },
      ],
    };
  const all = [...new Set<Act>([act, ...named, 'finding'])].slice(0, 3);
  if (all.length < 2) return null;
  return {
    line: 'What was done with it?',
    choices: all.map((each) => ({ label: DONE[each] ?? 'As I have it', instead: { act: each } })),
  };
}

function whichSide({ place }: ItemReading): Question | null {
  if (place.length === 0) return null;
  const pair = place.some((each) => each === 'front' || each === 'rear')
    ? (['front', 'rear'] as const)
    : (['left', 'right'] as const);
  const rest = place.filter((each) => !pair.some((side) => side === each));
  return {
    line: `Which: ${pair.join(' or ')}?`,
    choices: pair.map((side) => ({ label: capital(side), instead: { place: [...rest, side] } })),
  };
}

function whichOutcome({ act }: ItemReading): Question | null {
  const choice = (label: string, outcome: NonNullable<ItemReading['outcome']>): Choice => ({
    label,
    instead: { outcome },
  });
  if (act === 'back') {
    const choices = [
      choice('All right', 'all'),
      choice('Part of it', 'part'),
      choice('Not right', 'refused'),
    ];
    return { line: 'Is it all back, and right?', choices };
  }
  if (act === 'tested')
    return { line: 'Was it right?', choices: [choice('Right', 'pass'), choice('Not right', 'fail')] };
  if (act !== 'agreed') return null;
  const choices = [choice('Yes', 'yes'), choice('No', 'no'), choice('Let’s talk', 'talk')];
  return { line: 'What did the owner say?', choices };
}
