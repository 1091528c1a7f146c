import type { ItemReading } from '../../hearing/reading.js';
import { dateOfDay, dayNumber } from '../../plan/days.js';
import type { Button, Speaker } from '../answer.js';
import { day, measured, money } from '../figures.js';
import { capital, joined } from '../lines.js';
import { conditionName, doing, remedyName } from '../terms.js';
import { plural } from '../things.js';
import { readingWith } from './corrected.js';
import type { Told } from './told.js';

export type Asked = { line: string; buttons: Button[] };

/** The one question about what the reader was not sure of, with what else could have been meant; null where it was sure. */
export function unsureQuestion(told: Told, speaker: Speaker): Asked | null {
  const items = [...new Set(told.said?.reading.items ?? [])];
  for (const item of items) {
    for (const field of item.unsure) {
      const asked = askAbout(field, item, speaker);
      if (asked)
        return {
          line: asked.line,
          buttons: asked.choices.map((choice) => chosen(told, items, item, field, choice)),
        };
    }
  }
  return null;
}

type Choice = { label: string; instead: Partial<ItemReading> };
type Question = { line: string; choices: Choice[] };

/** A choice takes the message again with this field put so, in place of what was recorded. */
function chosen(
  told: Told,
  items: readonly ItemReading[],
  item: ItemReading,
  field: string,
  choice: Choice,
): Button {
  const { said, job, message } = told;
  if (!said) throw new Error('only something read can be unsure');
  const corrected = { ...item, ...choice.instead, unsure: item.unsure.filter((each) => each !== field) };
  return {
    label: choice.label,
    action: {
      do: 'apply',
      job,
      message,
      messageId: said.messageId,
      reading: readingWith(
        said.reading,
        items.map((each) => (each === item ? corrected : each)),
      ),
      attachments: [...said.attachments],
      instead: true,
    },
  };
}

/** A short question about one field; null for a field that has nothing to ask about. */
function askAbout(field: string, item: ItemReading, speaker: Speaker): Question | null {
  switch (field) {
    case 'due':
      return item.due === null ? null : whichDay(item.due, speaker);
    case 'cost':
      return item.cost === null ? null : whichCost(item, item.cost);
    case 'remedy':
      return whatToDo(item);
    case 'act':
      return goneOrNot(item);
    case 'place':
      return whichSide(item);
    case 'outcome':
      return whichOutcome(item);
    case 'part':
      return item.part === null ? null : right(`I took that to be the ${item.part}`);
    case 'supplier':
      return item.supplier === null ? null : right(`I took ${item.supplier} to have it`);
    case 'count':
      return item.count === null ? null : right(`${item.count} of them`);
    case 'conditions':
      return item.conditions.length === 0 ? null : right(capital(joined(item.conditions.map(conditionName))));
    case 'processes':
      return item.processes.length === 0 ? null : right(capital(doing(item.processes)));
    case 'stored':
      return item.stored === null ? null : right(`Put away in ${item.stored}`);
    case 'readings':
      return item.readings.length === 0 ? null : right(capital(joined(measured(item.readings))));
    case 'item':
      return item.item === null ? null : right(`Number ${item.item}`);
    default:
      return null;
  }
}

const right = (line: string): Question => ({ line: `${line}: right?`, choices: [] });

/** 'Next Tuesday' is taken as next week's; the nearer one may be meant, where it is still to come. */
function whichDay(due: string, speaker: Speaker): Question {
  const sooner = dateOfDay(dayNumber(due) - 7);
  const later = dateOfDay(dayNumber(due) + 7);
  const other = sooner > speaker.today ? sooner : later;
  const days = [due, other].sort();
  return {
    line: `Which day: ${days.map((each) => day(each, speaker)).join(' or ')}?`,
    choices: days.map((each) => ({ label: day(each, speaker), instead: { due: each } })),
  };
}

function whichCost({ count, part }: ItemReading, cost: NonNullable<ItemReading['cost']>): Question {
  const figure = money({ ...cost, each: false });
  if (count === null || count < 2)
    return right(`${capital(figure)}${part === null ? '' : ` for the ${part}`}`);
  return {
    line: `${capital(figure)} for each, or for ${part === null ? 'them all' : `all ${count} ${plural(part)}`}?`,
    choices: [
      { label: 'Each', instead: { cost: { ...cost, each: true } } },
      { label: 'All together', instead: { cost: { ...cost, each: false } } },
    ],
  };
}

function whatToDo({ remedy, processes }: ItemReading): Question {
  const others = (['repair', 'send-out', 'replace'] as const).filter((each) => each !== remedy);
  const words = { repair: 'Repair here', 'send-out': 'Send out', replace: 'Replace' } as const;
  const said =
    remedy === null ? [] : [{ label: capital(remedyName(remedy, processes)), instead: { remedy } }];
  return {
    line: 'What is to be done with it?',
    choices: [
      ...said,
      ...others.slice(0, 3 - said.length).map((each) => ({ label: words[each], instead: { remedy: each } })),
    ],
  };
}

function goneOrNot({ act }: ItemReading): Question {
  if (act !== 'sent' && act !== 'finding') return right('I took that as said');
  return {
    line: 'Has it gone, or is it still to go?',
    choices: [
      { label: 'It has gone', instead: { act: 'sent' } },
      { label: 'Still to go', instead: { act: 'finding', remedy: 'send-out' } },
    ],
  };
}

function whichSide({ place }: ItemReading): Question {
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
