import type { ItemReading } from '../../hearing/reading.js';
import { handedBackUndone } from '../../hearing/returns.js';
import { saysPassed, tellsOfRide } from '../../hearing/rides.js';
import type { JobCommand } from '../../job/commands.js';
import type { Attachment } from '../../job/events.js';
import { resolve } from '../../job/resolve.js';
import type { JobState } from '../../job/state.js';
import type { Effect } from '../../record/types.js';
import type { Change, JobOutcome } from '../store.js';
import { keepWords } from '../keep-words.js';
import type { Workplace } from '../workplace.js';
import { arrivedOrFitted, someOfSeveral } from './arrivals.js';
import { commandsOf } from './commands.js';
import { supplierMeant } from './suppliers.js';

/** What was said, by whom, in which message. */
export type Saying = {
  key: string;
  person: string;
  /** The message's id in the record: what an undo names. */
  message: string;
  messageId: number;
  at: number;
  text: string;
  attachments: Attachment[];
};

export type Carried = JobOutcome & { commands: readonly JobCommand[]; meant: readonly ItemReading[] };

/**
 * Records what a reading says of one job. Words are kept beside the stream, pictures are sent for. `foresee` is shown what
 * is to come of it while that is being kept (see `Store.toJob`).
 */
export async function carryOut(
  place: Workplace,
  saying: Saying,
  job: string,
  said: readonly ItemReading[],
  last: number | null,
  part = 0,
  foresee?: (carried: Carried) => void,
): Promise<Carried> {
  const commandId = `${saying.key}-${part}`;
  const text = `${commandId}-text`;
  const standing = await place.store.job(job);
  const items = ridden(said, saying.text)
    .map((item) => arrivedOrFitted(item, standing.state, saying.text))
    .map((item) => (said.length === 1 ? handedBackUndone(item, saying.text) : item))
    .map((item) => someOfSeveral(item, standing.state));
  const commands: JobCommand[] = [];
  const meant: ItemReading[] = [];
  for (const [index, item] of items.entries()) {
    const change: Change = { commandId: `${commandId}-supplier-${index}`, at: saying.at, by: saying.person };
    const supplier = await supplierMeant(place, item, standing.state, change);
    const settled = {
      supplier,
      text,
      attachments: index === 0 ? saying.attachments : [],
      last: lastOf(items.slice(0, index), standing.state, last),
      agreed: item.act === 'agreed' ? itemsAgreed(item, standing.state) : [],
      ride: tellsOfRide(saying.text),
    };
    for (const command of commandsOf(item, settled)) {
      if (command.type === 'road-test' && commands.some((told) => sayAsMuch(told, command))) continue;
      commands.push(command);
      meant.push(item);
    }
  }
  const outcome = await place.store.toJob(
    job,
    {
      commandId,
      at: saying.at,
      by: saying.person,
      message: saying.message,
      texts: { [text]: saying.text },
      effects: fetches(job, saying.attachments),
    },
    commands,
    (outcome) => foresee?.({ ...outcome, commands, meant }),
  );
  if (outcome.events.length === 0) await keepWords(place, { ...saying, key: commandId });
  return { ...outcome, commands, meant };
}

/**
 * A ride on which something was found wrong is not passed by praise ('pulls well, weeping at the feed'). What was found
 * stands in its fault; what is to be done about it, or was measured, is listed too.
 */
function ridden(items: readonly ItemReading[], text: string): readonly ItemReading[] {
  const isRide = ({ act, part }: ItemReading): boolean => act === 'tested' && part === null;
  const isFound = ({ act, conditions }: ItemReading): boolean =>
    act === 'finding' && conditions.some((condition) => condition !== 'good');
  const failed =
    items.some((item) => isRide(item) && item.outcome === 'fail') ||
    (items.some(isRide) && items.some(isFound) && !saysPassed(text));
  const isMore = ({ act, remedy, processes, cost, readings }: ItemReading): boolean =>
    act !== 'finding' || remedy !== null || processes.length > 0 || cost !== null || readings.length > 0;
  if (!failed) return items;
  return items.filter(isMore).map((item) => (isRide(item) ? { ...item, outcome: 'fail' } : item));
}

/** One ride is told of in one message, however many things were seen on it. */
function sayAsMuch(told: JobCommand, { outcome }: Extract<JobCommand, { type: 'road-test' }>): boolean {
  return told.type === 'road-test' && (told.outcome === 'fail' || outcome === 'pass');
}

/** Within a message a thing not named is the one named before it, if that is on the list already. */
function lastOf(before: readonly ItemReading[], state: JobState, last: number | null): number | null {
  const named = before.findLast((item) => item.part !== null || item.item !== null);
  if (!named) return last;
  const found = resolve(state, {
    item: named.item,
    part: named.part,
    called: null,
    place: named.place,
    count: null,
  });
  return found.kind === 'found' ? found.item.number : last;
}

function itemsAgreed({ item, part, place, count }: ItemReading, state: JobState): number[] {
  if (item !== null) return [item];
  const found = resolve(state, { item, part, called: null, place, count });
  if (found.kind === 'found') return [found.item.number];
  return found.kind === 'each' || found.kind === 'several' ? found.items.map(({ number }) => number) : [];
}

export function fetches(job: string, attachments: readonly Attachment[]): Effect[] {
  return attachments.map(({ unique, handle, kind }) => ({
    id: `fetch-${job}-${unique}`,
    queue: 'fetch',
    data: { job, unique, handle, kind },
  }));
}

/** The reading's items by the job each is about, in the order said. */
export function byJob(
  items: readonly ItemReading[],
  job: string | null,
  jobNamed: (machine: string) => string | null,
): { job: string | null; items: ItemReading[] }[] {
  const groups: { job: string | null; items: ItemReading[] }[] = [];
  for (const item of items) {
    const meant = item.machine === undefined ? job : jobNamed(item.machine);
    const group = groups.find((each) => each.job === meant);
    if (group) group.items.push(item);
    else groups.push({ job: meant, items: [item] });
  }
  return groups;
}
