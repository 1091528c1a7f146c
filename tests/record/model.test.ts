import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Append, Effect, StreamId } from '../../src/record/types.js';
import { event, useBench } from './support.js';

const bench = useBench();

type Step = {
  stream: StreamId;
  /** How far the expected version is off. */
  off: number;
  command: string;
  events: string[];
  effects: string[];
  texts: Record<string, string>;
  dueAt: number | null | undefined;
};

const step: fc.Arbitrary<Step> = fc.record({
  stream: fc.constantFrom<StreamId>('shop', 'job-1', 'contact-1'),
  off: fc.constantFrom(0, 0, 0, 0, -1, 1),
  command: fc.integer({ min: 0, max: 20 }).map((n) => `command-${n}`),
  events: fc.array(fc.string(), { maxLength: 3 }),
  effects: fc.uniqueArray(
    fc.integer({ min: 0, max: 8 }).map((n) => `effect-${n}`),
    { maxLength: 3 },
  ),
  texts: fc.dictionary(fc.string({ minLength: 1 }), fc.string(), { maxKeys: 2, noNullPrototype: true }),
  dueAt: fc.oneof(fc.constant(undefined), fc.constant(null), fc.nat()),
});

/** What the record should be, as plainly as it can be said. */
class Model {
  streams = new Map<StreamId, { said: unknown[]; seen: Map<string, number>; texts: Map<string, string> }>();
  due = new Map<StreamId, number>();
  effects: string[] = [];

  of(id: StreamId) {
    const none = { said: [] as unknown[], seen: new Map<string, number>(), texts: new Map<string, string>() };
    const found = this.streams.get(id) ?? none;
    this.streams.set(id, found);
    return found;
  }

  append({ stream, commandId, expectedVersion, events, texts, effects, dueAt }: Append) {
    const { said, seen, texts: words } = this.of(stream);
    const before = seen.get(commandId);
    if (before !== undefined) return { outcome: 'seen', version: before };
    if (said.length !== expectedVersion) return { outcome: 'conflict', version: said.length };
    said.push(...events.map(({ data }) => data));
    for (const [id, text] of Object.entries(texts ?? {})) words.set(id, text);
    for (const { id } of effects ?? []) if (!this.effects.includes(id)) this.effects.push(id);
    if (dueAt === null) this.due.delete(stream);
    else if (dueAt !== undefined) this.due.set(stream, dueAt);
    seen.set(commandId, said.length);
    return { outcome: 'appended', version: said.length };
  }
}

function asAppend(step: Step, version: number): Append {
  const effects: Effect[] = step.effects.map((id) => ({ id, queue: 'wake', data: {} }));
  return {
    ...{ stream: step.stream, expectedVersion: Math.max(0, version + step.off), commandId: step.command },
    ...{ at: 1, by: 'benchhand', events: step.events.map((said) => event(said)), texts: step.texts, effects },
    ...(step.dueAt === undefined ? {} : { dueAt: step.dueAt }),
  };
}

it('answers and keeps what a plain model does, over random commands', async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
      const record = bench.open();
      const model = new Model();
      for (const one of steps) {
        const append = asAppend(one, model.of(one.stream).said.length);
        const { outcome, version } = await record.append(append);
        expect({ outcome, version }).toEqual(model.append(append));
      }
      for (const [stream, expected] of model.streams) {
        const { version, events, texts } = await record.load(stream);
        expect(version).toBe(expected.said.length);
        expect(events.map(({ data }) => data)).toEqual(expected.said);
        expect(texts).toEqual(expected.texts);
      }
      const due = new Map(
        (await record.due.until(Number.MAX_SAFE_INTEGER)).map(({ stream, at }) => [stream, at]),
      );
      expect(due).toEqual(model.due);
      const waiting = await record.outbox.read('relay', { count: 1000, blockMs: 1 });
      expect(waiting.map(({ effect }) => effect.id)).toEqual(model.effects);
      await record.close();
    }),
    { numRuns: 60 },
  );
});
