import fc from 'fast-check';
import { CURRENCIES } from '../../src/hearing/reading.js';
import type { JobCommand, Target } from '../../src/job/commands.js';
import type { Attachment } from '../../src/job/events.js';
import type { JobState } from '../../src/job/state.js';
import type { Place } from '../../src/trade/terms.js';
import { CONDITIONS, GATES, PROCESSES, QUANTITIES, REMEDIES } from '../../src/trade/terms.js';

/** Few enough things that talk comes back to them; some of one step, some of none. */
const PARTS = ['footrest', 'chain', 'wheel rim', 'magneto', 'magneto drive', 'tool roll', 'no such part'];
const SUPPLIERS = ['brook', 'harlow', 'marsh'];
const DAYS = ['2026-02-27', '2026-03-06', '2026-04-03', '2026-12-24'];

const or = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.option(value, { freq: 2 });
const many = <T>(value: fc.Arbitrary<T>, most = 2): fc.Arbitrary<T[]> =>
  fc.uniqueArray(value, { maxLength: most });
const text = fc.constantFrom('t1', 't2');
const supplier = or(fc.constantFrom(...SUPPLIERS));
const due = fc.constantFrom(...DAYS);
const count = or(fc.integer({ min: 0, max: 6 }));
const gate = fc.constantFrom(...GATES);
const item = fc.integer({ min: 1, max: 6 });
const attachment: fc.Arbitrary<Attachment> = fc.record({
  kind: fc.constantFrom('photo', 'voice', 'document'),
  unique: fc.constantFrom('u1', 'u2'),
  handle: fc.constant('h'),
});
const cost = or(
  fc.record({
    amount: fc.integer({ min: 0, max: 20_000 }).map((pence) => pence / 100),
    currency: fc.constantFrom(...CURRENCIES),
    about: fc.boolean(),
    each: fc.boolean(),
    vat: fc.constantFrom('plus', 'including', null),
  }),
);

const target: fc.Arbitrary<Target> = fc.oneof(
  {
    weight: 5,
    arbitrary: fc.record({
      item: fc.constant(null),
      part: fc.constantFrom(...PARTS),
      called: fc.constant(null),
      place: many(fc.constantFrom('left', 'right', 'front', 'rear')),
      count,
    }),
  },
  {
    weight: 3,
    arbitrary: fc.record({
      item,
      part: fc.constant(null),
      called: fc.constant(null),
      place: fc.constant<Place[]>([]),
      count,
    }),
  },
  {
    weight: 1,
    arbitrary: fc.record({
      item: fc.constant(null),
      part: fc.constant(null),
      called: or(text),
      place: fc.constant<Place[]>([]),
      count,
    }),
  },
);

const seen = {
  conditions: many(fc.constantFrom(...CONDITIONS)),
  readings: fc.array(
    fc.record({
      quantity: fc.constantFrom(...QUANTITIES),
      value: fc.float({ noNaN: true, noDefaultInfinity: true }),
      unit: fc.constantFrom('mm', 'thou'),
    }),
    { maxLength: 1 },
  ),
  stored: or(fc.constantFrom('box 3', 'bag 14')),
  text: or(text),
  attachments: fc.array(attachment, { maxLength: 1 }),
};
const decided = {
  remedy: or(fc.constantFrom(...REMEDIES)),
  processes: many(fc.constantFrom(...PROCESSES.slice(0, 4))),
  supplier,
  cost,
};

const type = <T extends JobCommand['type']>(name: T): fc.Arbitrary<T> => fc.constant(name);

/** Talk of things and of the machine as a whole, of which a state need not be known. */
const bench: fc.Arbitrary<JobCommand> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ type: type('log-finding'), target, ...seen, ...decided }) },
  { weight: 2, arbitrary: fc.record({ type: type('take-off'), target, ...seen, ...decided }) },
  fc.record({ type: type('price'), target, cost: cost.filter((each) => each !== null) }),
  { weight: 3, arbitrary: fc.record({ type: type('order'), target, supplier, cost, due: or(due) }) },
  {
    weight: 4,
    arbitrary: fc.record({
      type: type('send'),
      target,
      supplier,
      processes: decided.processes,
      cost,
      due: or(due),
    }),
  },
  { weight: 2, arbitrary: fc.record({ type: type('promise'), target, supplier, due, by: supplier }) },
  {
    weight: 6,
    arbitrary: fc.record({
      type: type('take-back'),
      target,
      supplier,
      outcome: fc.constantFrom('all', 'part', 'refused'),
      count,
      text: or(text),
    }),
  },
  { weight: 3, arbitrary: fc.record({ type: type('work-done'), target }) },
  { weight: 4, arbitrary: fc.record({ type: type('fit'), target, ...seen }) },
  fc.record({
    type: type('road-test'),
    outcome: fc.constantFrom('pass', 'fail'),
    text: or(text),
    faults: fc.array(text, { maxLength: 2 }),
  }),
  fc.record({ type: type('find-fault'), target: or(target), text }),
  fc.record({ type: type('clear-fault'), fault: fc.integer({ min: 1, max: 3 }) }),
  fc.record({ type: type('ask-yes'), items: fc.array(item, { maxLength: 3 }) }),
  {
    weight: 2,
    arbitrary: fc.record({
      type: type('answer'),
      items: many(item, 3),
      outcome: fc.constantFrom('yes', 'no', 'talk'),
      text: or(text),
    }),
  },
  fc.record({ type: type('want-by'), gate: or(gate), date: or(due) }),
  { weight: 5, arbitrary: fc.record({ type: type('pass-gate'), gate }) },
  fc.record({ type: type('draft-notice'), about: fc.constantFrom('silence'), gate: fc.constant(null) }),
  fc.record({ type: type('keep-note'), target: or(target), text, attachments: seen.attachments }),
  fc.record({
    type: type('correct-item'),
    item,
    part: or(fc.constantFrom(...PARTS)),
    place: fc.constant<Place[]>([]),
    count: fc.constantFrom(null, 2),
  }),
  fc.record({ type: type('name-owner'), owner: fc.constantFrom('owner-1', 'owner-2') }),
  fc.record({ type: type('note-arrival'), text, attachments: seen.attachments }),
  fc.record({ type: type('attachment-fetched'), unique: fc.constant('u1'), hash: fc.constant('abc') }),
  fc.record({
    type: type('attachment-lost'),
    unique: fc.constant('u2'),
    why: fc.constantFrom('too-big', 'gone', 'no-room'),
  }),
  fc.record({ type: type('hand-over') }),
);

/** One more thing said, chosen where it must name what is there: a step, a check, a line, a notice. */
export type Said =
  | { command: JobCommand }
  | { pick: number; of: 'step' | 'check' | 'line' | 'notice' | 'message'; other: number; flag: boolean };

export const said: fc.Arbitrary<Said> = fc.oneof(
  { weight: 5, arbitrary: fc.record({ command: bench }) },
  {
    weight: 2,
    arbitrary: fc.record({
      pick: fc.nat(200),
      of: fc.constantFrom('step', 'check', 'line', 'notice', 'message'),
      other: fc.nat(200),
      flag: fc.boolean(),
    }),
  },
);

const at = <T>(list: readonly T[], index: number): T | undefined => list[index % Math.max(1, list.length)];

/** The commands that it comes to in a state; none where there is nothing to choose from. */
export function commandsFor(state: JobState, what: Said): JobCommand[] {
  if ('command' in what) return [what.command];
  const { pick, other, flag } = what;
  const step = at(state.steps, pick)?.id ?? 'none';
  const second = at(state.steps, other)?.id ?? 'none';
  switch (what.of) {
    case 'step':
      return [
        ...(flag && pick % 3 === 0
          ? state.steps.map(({ id }): JobCommand => ({ type: 'fit-step', step: id }))
          : []),
        at<JobCommand>(
          [
            { type: 'fit-step', step },
            { type: 'undo-step', step },
            {
              type: 'add-step',
              name: 't1',
              after: [step],
              before: flag ? [second] : [],
              parts: ['tool roll'],
              hours: other,
            },
            { type: 'drop-step', step },
            { type: 'link-step', step, after: second, linked: flag },
            { type: 'time-step', step, hours: other / 10 },
          ],
          other,
        ),
      ].filter((each) => each !== undefined);
    case 'check':
      return flag
        ? state.checks.map(({ id }) => ({ type: 'do-check', check: id, text: null }))
        : [{ type: 'do-check', check: at(state.checks, pick)?.id ?? 'none', text: null }];
    case 'line': {
      const line = at(Object.keys(state.lines), pick) ?? 'none';
      return [
        flag
          ? { type: 'promise-line', line, due: at(DAYS, other) ?? '2026-03-06', by: 'brook' }
          : { type: 'answer-lines', lines: [line], text: 't1', ready: flag },
      ];
    }
    case 'notice':
      return [{ type: 'settle-notice', notice: at(state.notices, pick)?.id ?? 'none', release: flag }];
    case 'message': {
      const message = at(Object.keys(state.messages), pick);
      return message === undefined ? [] : [{ type: 'undo', message }, { type: 'settle' }];
    }
  }
}
