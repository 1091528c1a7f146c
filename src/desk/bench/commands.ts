import type { ItemReading } from '../../hearing/reading.js';
import type { Attachment } from '../../job/events.js';
import type { Decided, JobCommand, Seen, Target } from '../../job/commands.js';

/** What a reading's words were settled to mean before it became commands. */
export type Settled = {
  /** The supplier meant, by id. */
  supplier: string | null;
  /** Where the message's own words are kept. */
  text: string;
  attachments: Attachment[];
  /** The item last spoken of, for talk that names none. */
  last: number | null;
  /** The items that an owner's answer is about, where it names any. */
  agreed: number[];
  /** Whether the message tells of a ride. */
  ride: boolean;
};

/** The commands that one thing said comes to. A question comes to none. */
export function commandsOf(item: ItemReading, settled: Settled): JobCommand[] {
  const target = targetOf(item, settled);
  const { supplier, text } = settled;
  const { processes, cost, due } = item;
  const named = isNamed(target);
  switch (item.act) {
    case 'finding':
      return saysOnlyFigures(item)
        ? figures(item, target, settled)
        : [{ type: 'log-finding', target, ...seen(item, settled), ...decided(item, settled) }];
    case 'stripped':
      return named
        ? [{ type: 'take-off', target, ...seen(item, settled), ...decided(item, settled) }]
        : note(settled);
    case 'ordered':
      return named ? [{ type: 'order', target, supplier, cost, due }] : note(settled);
    case 'sent':
      return named ? [{ type: 'send', target, supplier, processes, cost, due }] : note(settled);
    case 'promised':
      return due === null
        ? [...note(settled, named ? target : null), ...price(item, target)]
        : [
            {
              type: 'promise',
              target: nameless(item) && supplier !== null ? NOTHING : target,
              supplier,
              due,
              by: supplier,
            },
            ...price(item, target),
          ];
    case 'back':
      return [
        {
          type: 'take-back',
          target: nameless(item) && supplier !== null ? NOTHING : target,
          supplier,
          outcome: item.outcome === 'part' || item.outcome === 'refused' ? item.outcome : 'all',
          count: item.count,
          text,
        },
        ...price(item, target),
      ];
    case 'fitted':
      return named ? [{ type: 'fit', target, ...seen(item, settled) }] : note(settled);
    case 'tested':
      return tested(item, target, settled);
    case 'agreed':
      // A yes to something that is on no list is not a yes to all that is.
      return nameless(item) || settled.agreed.length > 0
        ? [{ type: 'answer', items: settled.agreed, outcome: answerOf(item), text }]
        : note(settled);
    case 'note':
      return note(settled, named ? target : null);
    case 'question':
      return [];
  }
}

const NOTHING: Target = { item: null, part: null, called: null, place: [], count: null };

function targetOf(item: ItemReading, { last }: Settled): Target {
  const { part, place, count } = item;
  if (nameless(item)) return { ...NOTHING, item: last, place, count };
  return { item: item.item, part, called: null, place, count };
}

const nameless = (item: ItemReading): boolean => item.item === null && item.part === null;
const isNamed = (target: Target): boolean =>
  target.item !== null || target.part !== null || target.called !== null;

/** A price or a date alone answers what was spoken of last; it is no finding. */
function saysOnlyFigures(item: ItemReading): boolean {
  return (
    (item.cost !== null || item.due !== null) &&
    item.conditions.length + item.readings.length + item.processes.length === 0 &&
    item.remedy === null &&
    item.stored === null
  );
}

function figures(item: ItemReading, target: Target, { supplier }: Settled): JobCommand[] {
  const promised: JobCommand[] =
    item.due === null ? [] : [{ type: 'promise', target, supplier, due: item.due, by: supplier }];
  return [...promised, ...price(item, target)];
}

function price(item: ItemReading, target: Target): JobCommand[] {
  return item.cost === null ? [] : [{ type: 'price', target, cost: item.cost }];
}

function seen(item: ItemReading, { text, attachments }: Settled): Seen {
  return { conditions: item.conditions, readings: item.readings, stored: item.stored, text, attachments };
}

function decided(item: ItemReading, { supplier }: Settled): Decided {
  return { remedy: item.remedy, processes: item.processes, supplier, cost: item.cost };
}

function note({ text, attachments }: Settled, target: Target | null = null): JobCommand[] {
  return [{ type: 'keep-note', target, text, attachments }];
}

function answerOf(item: ItemReading): 'yes' | 'no' | 'talk' {
  return item.outcome === 'yes' || item.outcome === 'no' ? item.outcome : 'talk';
}

/** A test that names a part is a bench test of it, unless a ride is told of; one that names none is the ride. */
function tested(item: ItemReading, target: Target, settled: Settled): JobCommand[] {
  const { text, ride } = settled;
  if (ride || nameless(item)) {
    const faulty = item.outcome === 'fail' || item.conditions.some((condition) => condition !== 'good');
    return [{ type: 'road-test', outcome: faulty ? 'fail' : 'pass', text, faults: faulty ? [text] : [] }];
  }
  const finding: JobCommand = {
    type: 'log-finding',
    target,
    ...seen(item, settled),
    ...decided(item, settled),
  };
  return item.outcome === 'fail' ? [finding, { type: 'find-fault', target, text }] : [finding];
}
