import { machinesNamed } from '../hearing/machines-named.js';
import type { Thing } from '../hearing/promised-dates.js';
import { promisedDates } from '../hearing/promised-dates.js';
import { readMessage } from '../hearing/read-message.js';
import type { Reading } from '../hearing/reading.js';
import type { JobCommand } from '../job/commands.js';
import type { Line } from '../job/state.js';
import { isOut } from '../job/state.js';
import { contactEvent } from '../contact/events.js';
import type { Answer } from '../wording/answer.js';
import { supplierHolds, supplierThanks } from '../wording/supplier.js';
import { fetches } from './bench/carry-out.js';
import { todayOf } from './calendars.js';
import type { Incoming } from './desk.js';
import { keepMoreOfAlbum, rememberAlbum } from './guest-albums.js';
import { finishOnce } from './once.js';
import { speakerFor } from './speaker.js';
import type { JobStanding } from './store.js';
import { matterOf, tellMechanics } from './tell.js';
import type { Workplace } from './workplace.js';

export type TheirLine = { standing: JobStanding; line: Line };
/** With the day that they promise for it now. */
type DatedLine = TheirLine & { due: string | null };

/** A supplier's message: kept, taken for a new date where it gives one, and passed on to the mechanics. */
export async function hearSupplier(place: Workplace, message: Incoming): Promise<Answer> {
  return finishOnce(place, message.key, async () => {
    const more = await keepMoreOfAlbum(place, message);
    if (more) return more;
    const { policy } = await place.store.shop();
    const theirs = await linesWith(place, message.person);
    const today = todayOf(policy, message.at);
    const reading = readMessage(message.text, {
      today,
      spoken: message.source === 'spoken',
      known: knownOf(theirs),
    });
    const meant = await linesMeant(place, message, reading, theirs);
    // What was forwarded are somebody else's words: they promise and ask nothing.
    const dues = message.forwarded
      ? meant.map(() => null)
      : promisedDates(reading, meant.map(thingOf), today);
    const dated = meant.map((their, at) => ({ ...their, due: dues[at] ?? null }));
    const asks = !message.forwarded && dues.every((due) => due === null);
    const asked = asks ? (reading.question?.about ?? null) : null;
    if (asked === 'where') await answerLines(place, message, [], theirs.length);
    if (asked === 'holding' || asked === 'overdue' || asked === 'where')
      return theirList(place, theirs, today);
    return answerLines(place, message, dated, theirs.length);
  });
}

/** A supplier who asks what they have of ours is shown it; a 'where' may mean something else too, so it is passed on as well. */
async function theirList(place: Workplace, theirs: readonly TheirLine[], today: string): Promise<Answer> {
  const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const texts = theirs.map(({ standing }) => standing.texts);
  return supplierHolds(theirs, policy.name, speakerFor(today, policy, people, ...texts));
}

/** What a supplier has of the shop's, over all jobs, those handed over too while things are still out. */
export async function linesWith(place: Workplace, supplier: string): Promise<TheirLine[]> {
  const { state: shop } = await place.store.shop();
  const standings = await Promise.all(shop.jobs.map(({ id }) => place.store.job(id)));
  return standings.flatMap((standing) =>
    Object.values(standing.state.lines)
      .filter((line) => line.supplier === supplier && isOut(line))
      .map((line) => ({ standing, line })),
  );
}

function thingOf({ standing, line }: TheirLine): Thing {
  const { part = null, place = [] } = standing.state.items[line.item] ?? {};
  return { part, place };
}

/** The reader is given the parts that the supplier has, so that a bare 'the rims' is understood. */
function knownOf(theirs: readonly TheirLine[]) {
  const items = theirs.flatMap(({ standing, line }) => {
    const item = standing.state.items[line.item];
    return item?.part == null ? [] : [{ item: item.number, part: item.part, place: item.place }];
  });
  return { suppliers: [], machines: [], items };
}

/** Of lines, those of the machines that the words name; all of them where they name none. Suppliers know a machine without whose it is. */
function ofMachineNamed(text: string, lines: readonly TheirLine[]): readonly TheirLine[] {
  const jobs = [...new Map(lines.map(({ standing }) => [standing.id, standing.state.title]))];
  const ids = machinesNamed(
    text,
    jobs.map(([, title]) => title),
  ).map((at) => jobs[at]?.[0]);
  const named = lines.filter(({ standing }) => ids.includes(standing.id));
  return named.length > 0 ? named : lines;
}

/** The lines a supplier writes about: those of the message answered, or of the parts named, else all they have. */
async function linesMeant(
  place: Workplace,
  message: Incoming,
  reading: Reading,
  theirs: readonly TheirLine[],
): Promise<readonly TheirLine[]> {
  const parts = new Set(reading.items.flatMap(({ part }) => (part === null ? [] : [part])));
  const named = theirs.filter(({ standing, line }) => parts.has(standing.state.items[line.item]?.part ?? ''));
  if (named.length > 0) return ofMachineNamed(message.text, named);
  const ofMachine = ofMachineNamed(message.text, theirs);
  if (ofMachine.length < theirs.length) return ofMachine;
  const { state } = await place.store.contact(message.person);
  const answered = Object.values(state.messages).find(
    (out) => out.chatMessage !== null && out.chatMessage === message.replyTo,
  );
  const about = answered?.about ?? [];
  const replied = theirs.filter(({ standing, line }) =>
    about.some((each) => each.job === standing.id && each.line === line.id),
  );
  if (replied.length > 0) return replied;
  const lastOut = Object.values(state.messages).findLast(
    (out) => out.kind === 'supplier-day' && out.status === 'sent',
  );
  const last = theirs.filter(({ standing, line }) =>
    lastOut?.about.some((each) => each.job === standing.id && each.line === line.id),
  );
  return last.length > 0 ? last : theirs;
}

async function answerLines(
  place: Workplace,
  message: Incoming,
  meant: readonly DatedLine[],
  out: number,
  ready = false,
): Promise<Answer> {
  const { key, person, at, text } = message;
  const words = `${key}-text`;
  const jobs = [...new Set(meant.map(({ standing }) => standing.id))];
  for (const job of jobs) {
    const lines = meant.filter(({ standing }) => standing.id === job);
    const ids = lines.map(({ line }) => line.id);
    const answer: JobCommand = { type: 'answer-lines', lines: ids, text: words, ready };
    const promises: JobCommand[] = lines.flatMap(({ line, due }) =>
      due === null ? [] : [{ type: 'promise-line', line: line.id, due, by: person }],
    );
    const pictures: JobCommand[] =
      message.attachments.length > 0
        ? [{ type: 'keep-note', target: null, text: words, attachments: message.attachments }]
        : [];
    const change = {
      commandId: `${key}-${job}`,
      at,
      by: person,
      texts: { [words]: text },
      effects: fetches(job, message.attachments),
    };
    await place.store.toJob(job, change, [answer, ...promises, ...pictures]);
  }
  const about = meant.map(({ standing, line, due }) =>
    matterOf(standing.id, { line: line.id, person, step: due }),
  );
  const received = { commandId: `${key}-received`, at, by: person, texts: { [words]: text } };
  await place.store.toContact(person, received, () => [
    contactEvent('message-received', { text: words, about }),
  ]);
  const fromWhom = about.length > 0 ? about : [matterOf(null, { person })];
  await tellMechanics(
    place,
    { id: `${key}-told`, kind: 'told', about: fromWhom, words: text, at, by: person },
    person,
  );
  await rememberAlbum(place, message, jobs);
  const [{ policy }, people] = await Promise.all([place.store.shop(), place.deps.record.people.all()]);
  const speaker = speakerFor(todayOf(policy, at), policy, people);
  return supplierThanks({ lines: meant, out, shop: policy.name }, speaker);
}

/** A tap under a message to a supplier: still on its day, ready, or late. */
export async function supplierTaps(
  place: Workplace,
  tap: { key: string; person: string; at: number },
  lines: readonly { job: string; line: string }[],
  says: 'on-time' | 'ready' | 'late',
): Promise<Answer> {
  const theirs = await linesWith(place, tap.person);
  const meant = theirs.filter(({ standing, line }) =>
    lines.some((each) => each.job === standing.id && each.line === line.id),
  );
  const message: Incoming = {
    ...tap,
    chatId: 0,
    messageId: 0,
    text: SAID[says],
    source: 'typed',
    attachments: [],
    replyTo: null,
    edited: false,
    album: null,
    forwarded: false,
  };
  const isReady = says === 'ready';
  const undated = meant.map((their) => ({ ...their, due: null }));
  return finishOnce(place, tap.key, () => answerLines(place, message, undated, theirs.length, isReady));
}

/** What each tap stands for when it is passed on as words. */
const SAID = { 'on-time': 'On its day.', ready: 'Ready to collect.', late: 'Running late.' } as const;
