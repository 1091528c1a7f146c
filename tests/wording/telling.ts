import type { Reading } from '../../src/hearing/reading.js';
import type { JobCommand } from '../../src/job/commands.js';
import { decideAll } from '../../src/job/decide.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import type { Told } from '../../src/wording/read-back/told.js';
import type { Step } from '../support/given.js';
import { carryOut, given, inMessage } from '../support/given.js';

export const ONE_JOB = [{ id: 'job', title: 'Larkspur', owner: 'owner-1', open: true }];

/** What came of one message's commands after what was given. */
export function tell(
  before: readonly Step[],
  commands: readonly JobCommand[],
  reading: Reading | null = null,
): Told {
  const { world } = given(...before, inMessage('m'));
  const { world: after } = carryOut(world, commands);
  const at = Date.parse(`${world.scene.day}T09:00:00Z`) + (world.minute + 1) * 60_000;
  const bench = { today: world.scene.day, at, by: world.scene.by, rules: world.scene.rules };
  const { refused } = decideAll(world.state, commands, bench);
  return {
    ...{ job: 'job', before: world.state, state: after.state, commands, refused, message: 'm' },
    events: after.events.slice(world.events.length),
    said: reading === null ? null : { reading, messageId: 7, attachments: [] },
    policy: DEFAULT_POLICY,
    jobs: ONE_JOB,
  };
}

/** A reading as the hearing gives it, from the fields that matter here. */
export function readingOf(...items: Partial<Reading['items'][number]>[]): Reading {
  return {
    ...{ text: '', heard: '', act: items[0]?.act ?? 'note', machine: null, question: null },
    items: items.map((item) => ({
      ...{ act: 'finding', item: null, part: null, count: null, place: [], conditions: [], remedy: null },
      ...{ processes: [], supplier: null, stored: null, outcome: null, cost: null, due: null },
      ...{ readings: [], unsure: [] },
      ...item,
    })),
  };
}
