import { expect } from 'vitest';
import type { JobCommand, Refusal } from '../../src/job/commands.js';
import { decideAll } from '../../src/job/decide.js';
import type { JobEvent, JobEventType } from '../../src/job/events.js';
import type { RecordedJobEvent } from '../../src/job/evolve.js';
import { evolve } from '../../src/job/evolve.js';
import { foldJob, needsRefold } from '../../src/job/fold.js';
import type { JobRules } from '../../src/job/needs.js';
import type { JobState } from '../../src/job/state.js';
import { NO_JOB } from '../../src/job/state.js';

/** Who says it, on which day, in which message, under which rules; what is left out is as before. */
export type Scene = { by: string; day: string; message: string | undefined; rules: JobRules };

type Setting = { set: Partial<Scene> };
export type Step = JobCommand | readonly JobCommand[] | Setting;

export type World = { events: readonly RecordedJobEvent[]; state: JobState; scene: Scene; minute: number };

export const RULES: JobRules = { ownerYesFrom: 50 };
const START: Scene = { by: 'mechanic-1', day: '2026-03-02', message: undefined, rules: RULES };
const NOWHERE: World = { events: [], state: NO_JOB, scene: START, minute: 0 };

export const on = (day: string): Setting => ({ set: { day } });
export const by = (person: string): Setting => ({ set: { by: person } });
export const inMessage = (message: string | undefined): Setting => ({ set: { message } });
export const under = (rules: JobRules): Setting => ({ set: { rules } });

type Carried = { world: World; events: JobEvent[]; refused: Refusal[] };

/** One message's commands on a job, recorded as the desk would: one minute after the last. */
export function carryOut(world: World, commands: readonly JobCommand[]): Carried {
  const { scene } = world;
  const minute = world.minute + 1;
  const at = Date.parse(`${scene.day}T09:00:00Z`) + minute * 60_000;
  const bench = { today: scene.day, at, by: scene.by, rules: scene.rules };
  const { events, refused } = decideAll(world.state, commands, bench);
  const after = events.reduce((before, event) => record(before, event, at), { ...world, minute });
  return { world: after, events, refused: refused.map(({ refusal }) => refusal) };
}

function record(world: World, event: JobEvent, at: number): World {
  const { by: person, message } = world.scene;
  const recorded: RecordedJobEvent = {
    ...event,
    version: world.events.length + 1,
    at,
    by: person,
    ...(message === undefined ? {} : { message }),
  };
  const events = [...world.events, recorded];
  const state = needsRefold(recorded) ? foldJob(events) : evolve(world.state, recorded);
  return { ...world, events, state };
}

function take(world: World, step: Step): World {
  if ('set' in step) return { ...world, scene: { ...world.scene, ...step.set } };
  const { world: after, refused } = carryOut(world, Array.isArray(step) ? step : [step as JobCommand]);
  if (refused.length > 0) throw new Error(`not a given, refused: ${JSON.stringify(refused)}`);
  return after;
}

/** What has been said of a job so far; nothing of it may be refused. */
export function given(...steps: readonly Step[]) {
  const world = steps.reduce(take, NOWHERE);
  return {
    world,
    state: world.state,
    /** A new message with its commands, under the last scene. */
    when: (...commands: readonly JobCommand[]) => outcomeOf(carryOut(world, commands)),
    and: (...more: readonly Step[]) => given(...steps, ...more),
  };
}

type Sketch = JobEventType | { [T in JobEventType]: { type: T; data?: object } }[JobEventType];

function outcomeOf({ world, events, refused }: Carried) {
  const outcome = {
    world,
    events,
    refused,
    state: world.state,
    /** Exactly these events in this order; data is compared as far as it is given. */
    then: (...expected: readonly Sketch[]) => {
      expect(refused).toEqual([]);
      expect(events.map(({ type }) => type)).toEqual(
        expected.map((each) => (typeof each === 'string' ? each : each.type)),
      );
      expected.forEach((each, index) => {
        if (typeof each !== 'string' && each.data) expect(events[index]?.data).toMatchObject(each.data);
      });
      return outcome;
    },
    /** Refused for this reason, and nothing recorded. */
    refusedFor: (refusal: Refusal) => {
      expect(refused).toEqual([refusal]);
      expect(events).toEqual([]);
      return outcome;
    },
  };
  return outcome;
}
