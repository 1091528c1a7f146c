import fc from 'fast-check';
import type { JobCommand } from '../../src/job/commands.js';
import { decideAll } from '../../src/job/decide.js';
import type { RecordedJobEvent } from '../../src/job/evolve.js';
import type { JobState } from '../../src/job/state.js';
import { opened } from '../job/talk.js';
import type { World } from './given.js';
import { carryOut, given } from './given.js';
import type { Pick } from './random-commands.js';
import { commandOf, pick, talkOfThings } from './random-commands.js';

/** What one message of a random conversation came to. */
export type Telling = {
  message: string;
  before: JobState;
  state: JobState;
  commands: JobCommand[];
  events: readonly RecordedJobEvent[];
  refused: ReturnType<typeof decideAll>['refused'];
};

export type Talk = { title: string; owner: string | null; days: number; messages: (JobCommand | Pick)[][] };

/** Conversations about one job, from nothing said to some forty messages. */
export const talks: fc.Arbitrary<Talk> = fc.record({
  title: fc.constantFrom('Larkspur', 'Mrs Averill’s Larkspur'),
  owner: fc.constantFrom('owner-1', 'owner-1', null),
  /** Days that pass between messages. */
  days: fc.integer({ min: 0, max: 6 }),
  messages: fc.array(
    fc.array(fc.oneof({ weight: 4, arbitrary: talkOfThings }, { weight: 1, arbitrary: pick }), {
      minLength: 1,
      maxLength: 3,
    }),
    { maxLength: 40, size: 'max' },
  ),
});

const DAY_MS = 86_400_000;

/** Each message with the state before and after it; the first opens the job. */
export function tellings({ title, owner, days, messages }: Talk): Telling[] {
  const opening = opened({ title, owner });
  const start = given(opening).world;
  const told: Telling[] = [
    {
      ...{ message: 'm0', before: given().state, state: start.state, commands: [opening] },
      ...{ events: start.events, refused: [] },
    },
  ];
  messages.reduce<World>((world, saids, index) => {
    const message = `m${index + 1}`;
    const day = new Date(Date.parse(`${world.scene.day}T00:00:00Z`) + days * DAY_MS)
      .toISOString()
      .slice(0, 10);
    const here = { ...world, scene: { ...world.scene, message, day } };
    const commands = saids.map((each) => ('of' in each ? commandOf(each, world.state) : each));
    const at = Date.parse(`${day}T09:00:00Z`) + (world.minute + 1) * 60_000;
    const bench = { today: day, at, by: here.scene.by, rules: here.scene.rules };
    const { refused } = decideAll(world.state, commands, bench);
    const { world: after } = carryOut(here, commands);
    const events = after.events.slice(world.events.length);
    told.push({ message, before: world.state, state: after.state, commands, events, refused });
    return after;
  }, start);
  return told;
}

/** The day of the last thing said, for a speaker's today. */
export const lastDayOf = ({ days, messages }: Talk): string =>
  new Date(Date.parse('2026-03-02T00:00:00Z') + days * messages.length * DAY_MS).toISOString().slice(0, 10);
