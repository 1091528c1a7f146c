import type { Append, Recorded, ShopRecord, StreamId } from './types.js';

type Kept = { version: number; edition: number; texts: Map<string, string> };

/** Words kept in a process for each record: of as many streams as a busy shop talks about in a day. */
const STREAMS_KEPT = 256;
const kept = new WeakMap<ShopRecord['memory'], Map<StreamId, Kept>>();

/**
 * The words beside a stream. Those of the last call are kept in the process: then only the words that newer events name
 * are read, and all of them again once any were forgotten or changed.
 */
export async function readWords(record: ShopRecord, stream: StreamId): Promise<ReadonlyMap<string, string>> {
  const before = kept.get(record.memory)?.get(stream);
  const words = (before && (await follow(record, stream, before))) ?? (await readAll(record, stream));
  keep(record, stream, words);
  return words.texts;
}

/** Takes note of the words that went with an append of this process's own, so that they need not be read. */
export function addWords(
  record: ShopRecord,
  { stream, expectedVersion, texts = {} }: Append,
  version: number,
): void {
  const before = kept.get(record.memory)?.get(stream);
  if (before?.version !== expectedVersion) return;
  for (const [id, text] of Object.entries(texts)) before.texts.set(id, text);
  keep(record, stream, { ...before, version });
}

/** The words with those of newer events; null where what is kept no longer holds. */
async function follow(record: ShopRecord, stream: StreamId, before: Kept): Promise<Kept | null> {
  const [edition, { version, events }] = await Promise.all([
    record.textEdition(stream),
    record.events(stream, before.version),
  ]);
  if (edition !== before.edition || version < before.version) return null;
  if (events.length === 0) return before;
  const found = await record.textsOf(stream, named(events));
  // Whoever was handed the map sees more words in it: none of those that were there has changed.
  for (const [id, text] of found) before.texts.set(id, text);
  return { ...before, version };
}

async function readAll(record: ShopRecord, stream: StreamId): Promise<Kept> {
  // Version and edition first: what is added or forgotten meanwhile is seen at the next call.
  const [edition, { version }] = await Promise.all([
    record.textEdition(stream),
    record.events(stream, Number.MAX_SAFE_INTEGER),
  ]);
  return { version, edition, texts: new Map(await record.texts(stream)) };
}

/** Every string in the events' data: whatever id of words they name is among them. */
function named(events: readonly Recorded[]): string[] {
  const found = new Set<string>();
  const look = (value: unknown): void => {
    if (typeof value === 'string') found.add(value);
    else if (typeof value === 'object' && value !== null) Object.values(value).forEach(look);
  };
  for (const { data } of events) look(data);
  return [...found];
}

function keep(record: ShopRecord, stream: StreamId, words: Kept): void {
  const streams = kept.get(record.memory) ?? new Map<StreamId, Kept>();
  kept.set(record.memory, streams);
  streams.delete(stream);
  streams.set(stream, words);
  const oldest = streams.keys().next();
  if (streams.size > STREAMS_KEPT && !oldest.done) streams.delete(oldest.value);
}
