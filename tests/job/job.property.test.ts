import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { blockersOf } from '../../src/job/blockers.js';
import { inOrder } from '../../src/job/build-order.js';
import type { JobCommand } from '../../src/job/commands.js';
import { due } from '../../src/job/due.js';
import { jobEventSchemas } from '../../src/job/events.js';
import { foldJob } from '../../src/job/fold.js';
import { nextGate, onOffer } from '../../src/job/gates.js';
import { isSaid } from '../../src/job/messages-said.js';
import { GATES } from '../../src/trade/terms.js';
import type { World } from '../support/given.js';
import { carryOut, given, RULES } from '../support/given.js';
import type { Said } from './commands.arbitrary.js';
import { commandsFor, said } from './commands.arbitrary.js';
import { dueContext } from './due-context.js';
import { opened } from './talk.js';

const SEED = Number(process.env['SEED'] ?? Date.now() % 1_000_000);
const RUNS = 150;
const check = <T>(arbitrary: fc.Arbitrary<T>, holds: (value: T) => void): void =>
  fc.assert(fc.property(arbitrary, holds), { seed: SEED, numRuns: RUNS });

const openings = fc.record({
  owner: fc.constantFrom('owner-1', null),
  passed: fc.integer({ min: 0, max: GATES.length }).map((count) => GATES.slice(0, count)),
  template: fc.constantFrom('single-separate-gearbox', 'unit-twin', 'gone'),
});
/** Messages, each with what it says; a message may be undone by a later one. */
const talks = fc.record({
  opening: openings,
  messages: fc.array(fc.array(said, { minLength: 1, maxLength: 3 }), { maxLength: 25 }),
});
type Talk = typeof talks extends fc.Arbitrary<infer T> ? T : never;

/** Undo goes by itself and in two appends, as at the desk; all else said in one message goes together. */
function say(world: World, message: string, saids: readonly Said[]): World {
  const alone = saids.flatMap((each) =>
    'of' in each && each.of === 'message' ? commandsFor(world.state, each) : [],
  );
  const undone = alone.reduce(
    (before, command) =>
      carryOut({ ...before, scene: { ...before.scene, message: undefined } }, [command]).world,
    world,
  );
  const together: JobCommand[] = saids.flatMap((each) =>
    'of' in each && each.of === 'message' ? [] : commandsFor(undone.state, each),
  );
  return carryOut({ ...undone, scene: { ...undone.scene, message } }, together).world;
}

function worlds({ opening, messages }: Talk): World[] {
  const start = given(opened(opening)).world;
  return messages.reduce<World[]>(
    (sofar, saids, index) => [...sofar, say(sofar.at(-1) ?? start, `m${index}`, saids)],
    [start],
  );
}

describe(`random talk of a job (SEED=${SEED})`, () => {
  it('leaves the state that its events fold to', () => {
    check(talks, (talk) => {
      const last = worlds(talk).at(-1);
      expect(foldJob(last?.events ?? [])).toEqual(last?.state);
    });
  });

  it('leaves no gate passed that is blocked, while the machine is here', () => {
    check(talks, (talk) => {
      for (const { state } of worlds(talk)) {
        if (state.status !== 'open') continue;
        const wrong = GATES.filter(
          (gate) => state.gates[gate].passed && blockersOf(state, gate, RULES).length > 0,
        );
        expect(wrong).toEqual([]);
        expect(onOffer(state, RULES).filter((gate) => state.gates[gate].passed)).toEqual([]);
        expect(nextGate(state) === null).toBe(GATES.every((gate) => state.gates[gate].passed));
      }
    });
  });

  it('names who holds every blocker, and things that are there', () => {
    check(talks, (talk) => {
      for (const { state } of worlds(talk).slice(-1)) {
        for (const blocker of GATES.flatMap((gate) => blockersOf(state, gate, RULES))) {
          expect(['shop', 'owner', 'supplier']).toContain(blocker.holder.who);
          if (blocker.item !== null) expect(state.items[blocker.item]).toBeDefined();
          if (blocker.line !== null) expect(state.lines[blocker.line]?.status).toMatch(/open|part/);
          if (blocker.step !== null) expect(state.steps.map(({ id }) => id)).toContain(blocker.step);
        }
      }
    });
  });

  it('is taken back by an undo, but for items that later talk built on', () => {
    check(talks, (talk) => {
      const [before, after] = worlds(talk).slice(-2);
      const message = `m${talk.messages.length - 1}`;
      if (!before || !after || !isSaid(after.state.messages, message)) return;
      const saids = talk.messages.at(-1) ?? [];
      if (saids.some((each) => 'of' in each && each.of === 'message')) return;
      const undone = carryOut({ ...after, scene: { ...after.scene, message: undefined } }, [
        { type: 'undo', message },
      ]);
      const { lastEventAt, version } = undone.world.state;
      expect(undone.world.state).toEqual({ ...before.state, lastEventAt, version });
    });
  });

  it('ties no loop in the build order', () => {
    check(talks, (talk) => {
      for (const { state } of worlds(talk).slice(-1)) {
        const placed = new Set<string>();
        const known = new Set(state.steps.map(({ id }) => id));
        for (const step of inOrder(state.steps)) {
          expect(step.after.filter((id) => known.has(id) && !placed.has(id))).toEqual([]);
          placed.add(step.id);
        }
        expect(placed.size).toBe(state.steps.length);
      }
    });
  });

  it('gives events that their schemas know, before and after they were written down', () => {
    check(talks, (talk) => {
      const events = worlds(talk).at(-1)?.events ?? [];
      const read = events.map((event) => {
        const written = JSON.parse(JSON.stringify(event)) as typeof event;
        return { ...written, data: jobEventSchemas[event.type].strict().parse(written.data) };
      });
      expect(read).toEqual(events);
    });
  });

  it('gives ids that come once: lines, notices, steps, dues', () => {
    check(talks, (talk) => {
      const all = worlds(talk);
      const ids = new Map<string, number>();
      for (const event of all.at(-1)?.events ?? []) {
        const id =
          event.type === 'line-opened'
            ? event.data.line
            : event.type === 'notice-drafted'
              ? event.data.notice
              : event.type === 'step-added'
                ? event.data.step
                : null;
        if (id !== null) ids.set(id, (ids.get(id) ?? 0) + 1);
      }
      expect([...ids.values()].every((times) => times === 1)).toBe(true);
      for (const { state } of all) {
        const dues = due(state, dueContext());
        expect(new Set(dues.map(({ id }) => id)).size).toBe(dues.length);
        expect(dues).toEqual(due(structuredClone(state), dueContext()));
      }
    });
  });

  it('asks for nothing more where nothing more is said', () => {
    check(talks, (talk) => {
      const last = worlds(talk).at(-1);
      if (last) expect(carryOut(last, [{ type: 'settle' }]).events).toEqual([]);
    });
  });
});
