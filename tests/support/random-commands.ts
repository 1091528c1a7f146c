import fc from 'fast-check';
import type { JobCommand, Target } from '../../src/job/commands.js';
import type { Attachment } from '../../src/job/events.js';
import type { JobState } from '../../src/job/state.js';
import { CONDITIONS, GATES, PROCESSES, REMEDIES } from '../../src/trade/terms.js';

/** Few enough things that talk comes back to them; one that the lexicon lacks. */
const PARTS = [
  'footrest',
  'brake shoe',
  'wheel rim',
  'petrol tank',
  'magneto',
  'front mudguard',
  'tool roll',
];
const SUPPLIERS = ['brook', 'harlow', 'marsh'];
const DAYS = ['2026-02-27', '2026-03-13', '2026-04-03', '2027-01-08'];

const perhaps = <T>(value: fc.Arbitrary<T>): fc.Arbitrary<T | null> => fc.option(value, { freq: 3 });
const few = <T>(values: readonly T[], most = 2): fc.Arbitrary<T[]> =>
  fc.uniqueArray(fc.constantFrom(...values), { maxLength: most });
const text = fc.constantFrom('t1', 't2');
const supplier = perhaps(fc.constantFrom(...SUPPLIERS));
const day = fc.constantFrom(...DAYS);
const item = fc.integer({ min: 1, max: 7 });
const count = perhaps(fc.integer({ min: 1, max: 40 }));
const cost = fc.record({
  amount: fc.integer({ min: 1, max: 40_000 }).map((pence) => pence / 100),
  currency: fc.constantFrom('GBP' as const, 'GBP' as const, 'EUR' as const),
  about: fc.boolean(),
  each: fc.boolean(),
  vat: fc.constantFrom('plus' as const, 'including' as const, null),
});
const attachments: fc.Arbitrary<Attachment[]> = fc.array(
  fc.record({
    kind: fc.constantFrom('photo' as const, 'voice' as const, 'document' as const),
    unique: fc.constantFrom('u1', 'u2', 'u3'),
    handle: fc.constant('h'),
  }),
  { maxLength: 2 },
);

const target: fc.Arbitrary<Target> = fc.oneof(
  fc.record({
    ...{ item: fc.constant(null), part: fc.constantFrom(...PARTS), called: fc.constant(null), count },
    place: few(['left', 'right', 'front', 'rear'] as const),
  }),
  fc.record({
    ...{ item, part: fc.constant(null), called: fc.constant(null), count: fc.constant(null) },
    place: fc.constant<Target['place']>([]),
  }),
  fc.record({
    ...{ item: fc.constant(null), part: fc.constant(null), called: perhaps(text), count: fc.constant(null) },
    place: fc.constant<Target['place']>([]),
  }),
);

const reading = fc.record({
  quantity: fc.constantFrom('diameter' as const, 'end-float' as const, 'other' as const),
  value: fc.integer({ min: 1, max: 9_000 }).map((hundredths) => hundredths / 100),
  unit: fc.constantFrom('mm', 'thou', ''),
});
const seen = {
  conditions: few(CONDITIONS),
  readings: fc.array(reading, { maxLength: 2 }),
  stored: perhaps(fc.constantFrom('box 3', 'shelf 2')),
  text: perhaps(text),
  attachments,
};
const decided = {
  remedy: perhaps(fc.constantFrom(...REMEDIES)),
  processes: few(PROCESSES),
  supplier,
  cost: perhaps(cost),
};

const is = <T extends JobCommand['type']>(type: T): { type: fc.Arbitrary<T> } => ({
  type: fc.constant(type),
});

/** Talk of things and of the machine, whatever is there. */
export const talkOfThings: fc.Arbitrary<JobCommand> = fc.oneof(
  { weight: 6, arbitrary: fc.record({ ...is('log-finding'), target, ...seen, ...decided }) },
  { weight: 2, arbitrary: fc.record({ ...is('take-off'), target, ...seen, ...decided }) },
  fc.record({ ...is('price'), target, cost }),
  {
    weight: 3,
    arbitrary: fc.record({ ...is('order'), target, supplier, cost: perhaps(cost), due: perhaps(day) }),
  },
  {
    weight: 4,
    arbitrary: fc.record({
      ...is('send'),
      target,
      supplier,
      processes: few(PROCESSES),
      cost: perhaps(cost),
      due: perhaps(day),
    }),
  },
  { weight: 2, arbitrary: fc.record({ ...is('promise'), target, supplier, due: day, by: supplier }) },
  {
    weight: 4,
    arbitrary: fc.record({
      ...{ ...is('take-back'), target, supplier, count, text: perhaps(text) },
      outcome: fc.constantFrom('all' as const, 'part' as const, 'refused' as const),
    }),
  },
  { weight: 2, arbitrary: fc.record({ ...is('work-done'), target }) },
  { weight: 3, arbitrary: fc.record({ ...is('fit'), target, ...seen }) },
  fc.record({
    ...{
      ...is('road-test'),
      outcome: fc.constantFrom('pass' as const, 'fail' as const),
      text: perhaps(text),
    },
    faults: fc.array(text, { maxLength: 2 }),
  }),
  fc.record({ ...is('find-fault'), target: perhaps(target), text }),
  fc.record({ ...is('clear-fault'), fault: fc.integer({ min: 1, max: 3 }) }),
  { weight: 2, arbitrary: fc.record({ ...is('ask-yes'), items: fc.uniqueArray(item, { maxLength: 5 }) }) },
  fc.record({
    ...{ ...is('answer'), items: fc.uniqueArray(item, { maxLength: 3 }), text: perhaps(text) },
    outcome: fc.constantFrom('yes' as const, 'no' as const, 'talk' as const),
  }),
  fc.record({ ...is('want-by'), gate: perhaps(fc.constantFrom(...GATES)), date: perhaps(day) }),
  { weight: 3, arbitrary: fc.record({ ...is('pass-gate'), gate: fc.constantFrom(...GATES) }) },
  fc.record({ ...is('draft-notice'), about: fc.constant('silence' as const), gate: fc.constant(null) }),
  fc.record({ ...is('keep-note'), target: perhaps(target), text, attachments }),
  fc.record({ ...is('name-owner'), owner: fc.constantFrom('owner-1', 'owner-2') }),
  fc.record({ ...is('note-arrival'), text, attachments }),
  fc.record({ ...is('attachment-fetched'), unique: fc.constant('u1'), hash: fc.constant('abc') }),
  fc.record({
    ...is('attachment-lost'),
    unique: fc.constant('u2'),
    why: fc.constantFrom('too-big' as const, 'gone' as const),
  }),
  fc.record(is('hand-over')),
);

/** Talk of what must be there already, chosen by place: a step, a check, a line, a notice, an earlier message. */
export const pick = fc.record({
  of: fc.constantFrom(
    'step' as const,
    'check' as const,
    'line' as const,
    'notice' as const,
    'message' as const,
  ),
  first: fc.nat(200),
  second: fc.nat(200),
});
export type Pick = typeof pick extends fc.Arbitrary<infer T> ? T : never;

const nth = <T>(list: readonly T[], index: number): T | undefined => list[index % Math.max(1, list.length)];

/** The command that a pick comes to in a state; a thing that isn't there where there is nothing to choose from. */
export function commandOf({ of, first, second }: Pick, state: JobState): JobCommand {
  switch (of) {
    case 'step':
      return stepCommand(nth(state.steps, first)?.id ?? '57', nth(state.steps, second)?.id ?? '58', second);
    case 'check':
      return { type: 'do-check', check: nth(state.checks, first)?.id ?? 'none', text: null };
    case 'line':
      return {
        type: 'promise-line',
        line: nth(Object.keys(state.lines), first) ?? 'none',
        due: nth(DAYS, second) ?? '2026-04-03',
        by: 'brook',
      };
    case 'notice':
      return {
        type: 'settle-notice',
        notice: nth(state.notices, first)?.id ?? 'none',
        release: second % 3 > 0,
      };
    case 'message':
      return { type: 'undo', message: nth(Object.keys(state.messages), first) ?? 'none' };
  }
}

function stepCommand(step: string, other: string, choice: number): JobCommand {
  const commands: JobCommand[] = [
    { type: 'fit-step', step },
    { type: 'fit-step', step },
    { type: 'undo-step', step },
    { type: 'add-step', name: 't1', after: [step], before: [other], parts: ['tool roll'], hours: 1.5 },
    { type: 'drop-step', step },
    { type: 'link-step', step, after: other, linked: choice % 2 === 0 },
    { type: 'time-step', step, hours: choice / 10 },
  ];
  return nth(commands, choice) ?? { type: 'fit-step', step };
}
