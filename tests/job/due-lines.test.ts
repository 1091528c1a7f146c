import { describe, expect, it } from 'vitest';
import type { JobCommand } from '../../src/job/commands.js';
import type { DueContext } from '../../src/job/due.js';
import { due, nextDueAfter, nextDueAt } from '../../src/job/due.js';
import type { Step } from '../support/given.js';
import { given, on } from '../support/given.js';
import { calendar, dueContext } from './due-context.js';
import { back, lineOf, opened, promised, sent, the } from './talk.js';

// Bank holidays of England in 2026 as GOV.UK lists them: 3 and 6 April (Easter), 4 May, 25 and 28 December among
// others. Clocks in the United Kingdom go forward on 29 March 2026 and back on 25 October 2026 (GOV.UK).

const RIM = the('wheel rim');
const out = (day: string, dueOn: string): Step[] => [
  opened(),
  on(day),
  { ...sent(RIM, 'brook'), due: dueOn },
];

/** The ladder still to come, as step and instant. */
function ladder(steps: readonly Step[], more: Partial<DueContext> = {}): string[] {
  return due(given(...steps).state, dueContext(more)).flatMap((each) =>
    each.kind === 'supplier' ? [`${each.step} ${new Date(each.at).toISOString().slice(0, 16)}`] : [],
  );
}

/** Steps spoken of: the ladder's own ids end in the number of the promise and the step. */
const spoken =
  (said: Readonly<Record<string, string>>): DueContext['spokenOf'] =>
  (id) => {
    const at = Object.entries(said).find(([step]) => id.endsWith(`~${step}`))?.[1];
    return at === undefined ? null : Date.parse(at);
  };

const answerOn = (day: string, steps: readonly Step[], ready = false): Step[] => {
  const line = lineOf(given(...steps).state, 1).id;
  const answer: JobCommand = { type: 'answer-lines', lines: [line], text: 't', ready };
  return [...steps, on(day), answer];
};

describe('a chaser', () => {
  it.each([
    ['the next day in the week', '2026-03-10', 'chase 2026-03-11T09:00'],
    ['Monday, after a Friday', '2026-03-06', 'chase 2026-03-09T09:00'],
    ['Monday, after a Saturday', '2026-03-07', 'chase 2026-03-09T09:00'],
    ['Monday, after a Sunday', '2026-03-08', 'chase 2026-03-09T09:00'],
    ['nine by summer time, once the clocks are forward', '2026-03-27', 'chase 2026-03-30T08:00'],
    ['after Easter', '2026-04-02', 'chase 2026-04-07T08:00'],
    ['after Good Friday itself', '2026-04-03', 'chase 2026-04-07T08:00'],
    ['nine by winter time, once the clocks are back', '2026-10-23', 'chase 2026-10-26T09:00'],
    ['after Christmas and its substitute day', '2026-12-24', 'chase 2026-12-29T09:00'],
  ])('goes on the first working day after the promised one: %s', (_what, dueOn, expected) => {
    expect(ladder(out('2026-03-02', dueOn)).at(-1)).toBe(expected);
  });

  it("keeps to the supplier's own days, hours and closed weeks", () => {
    const closed = calendar({
      days: [2, 4],
      hours: { from: '13:30', to: '16:00' },
      closed: [{ from: '2026-03-09', to: '2026-03-15' }],
    });
    expect(ladder(out('2026-03-02', '2026-03-06'), { calendarOf: () => closed })).toEqual([
      'chase 2026-03-17T13:30',
    ]);
  });

  it('of a day that was past as it was said is due at once', () => {
    expect(ladder(out('2026-03-18', '2026-03-12'))).toEqual(['chase 2026-03-13T09:00']);
  });

  it('goes again three working days after the first went, however late that was', () => {
    const steps = out('2026-03-02', '2026-03-06');
    expect(ladder(steps, { spokenOf: spoken({ '1~chase': '2026-03-09T09:00Z' }) })).toEqual([
      'chase-again 2026-03-12T09:00',
    ]);
    expect(ladder(steps, { spokenOf: spoken({ '1~chase': '2026-03-13T16:30Z' }) })).toEqual([
      'chase-again 2026-03-18T09:00',
    ]);
    expect(ladder(steps, { spokenOf: spoken({ '1~chase': '2026-04-02T10:00Z' }) })).toEqual([
      'chase-again 2026-04-09T08:00',
    ]);
  });

  it('goes twice and no more', () => {
    const both = { '1~chase': '2026-03-09T09:00Z', '1~chase-again': '2026-03-12T09:00Z' };
    expect(ladder(out('2026-03-02', '2026-03-06'), { spokenOf: spoken(both) })).toEqual([]);
  });

  it('goes as policy sets it', () => {
    const { policy } = dueContext();
    const supplier = {
      ...policy.supplier,
      chaseAfter: 2,
      chaseAgainAfter: 5,
      checkBefore: 1,
      checkWhereLeadOver: 0,
    };
    const set = { policy: { ...policy, supplier } };
    expect(ladder(out('2026-03-02', '2026-03-06'), set)).toEqual([
      'check 2026-03-05T09:00',
      'chase 2026-03-10T09:00',
    ]);
    expect(
      ladder(out('2026-03-02', '2026-03-06'), {
        ...set,
        spokenOf: spoken({ '1~chase': '2026-03-10T09:00Z' }),
      }),
    ).toEqual(['chase-again 2026-03-17T09:00']);
  });
});

describe('a courtesy check', () => {
  it('goes two working days before, only over a lead of more than a week', () => {
    expect(ladder(out('2026-03-02', '2026-03-10'))[0]).toBe('check 2026-03-06T09:00');
    expect(ladder(out('2026-03-02', '2026-03-09'))).toEqual(['chase 2026-03-10T09:00']);
  });

  it.each([
    ['over a weekend', '2026-03-16', 'check 2026-03-12T09:00'],
    ['before a Sunday', '2026-03-22', 'check 2026-03-18T09:00'],
    ['over Easter and the change of clocks', '2026-04-08', 'check 2026-04-02T08:00'],
    ['over the clocks going back', '2026-10-27', 'check 2026-10-23T08:00'],
  ])('counts working days %s', (_what, dueOn, expected) => {
    expect(ladder(out('2026-03-02', dueOn))[0]).toBe(expected);
  });

  it('counts the lead of a moved date from the day it was given', () => {
    const moved = (to: string): Step[] => [
      ...out('2026-03-02', '2026-03-20'),
      on('2026-03-18'),
      promised(RIM, to, 'brook'),
    ];
    expect(ladder(moved('2026-03-25'))).toEqual(['chase 2026-03-26T09:00']);
    expect(ladder(moved('2026-03-27'))[0]).toBe('check 2026-03-25T09:00');
  });

  it('is left out where the day for it was past as the date was given', () => {
    const closed = calendar({ closed: [{ from: '2026-03-05', to: '2026-03-18' }] });
    expect(ladder(out('2026-03-06', '2026-03-19'), { calendarOf: () => closed })).toEqual([
      'chase 2026-03-20T09:00',
    ]);
  });
});

describe('an answer', () => {
  const steps = out('2026-03-02', '2026-03-20');

  it('before the day stops the check, and a chaser still follows a missed day', () => {
    expect(ladder(answerOn('2026-03-10', steps))).toEqual(['chase 2026-03-23T09:00']);
  });

  it('on the day or after stops the chasing', () => {
    expect(ladder(answerOn('2026-03-20', steps))).toEqual([]);
    expect(
      ladder(answerOn('2026-03-24', steps), { spokenOf: spoken({ '1~chase': '2026-03-23T09:00Z' }) }),
    ).toEqual([]);
  });

  it('that it is ready stops the chasing whenever it comes', () => {
    expect(ladder(answerOn('2026-03-10', steps, true))).toEqual([]);
  });

  it('with a new date restarts the ladder, with ids of its own', () => {
    const chased = { spokenOf: spoken({ '1~check': '2026-03-18T09:00Z', '1~chase': '2026-03-23T09:00Z' }) };
    const line = lineOf(given(...steps).state, 1).id;
    const moved: Step = [
      { type: 'answer-lines', lines: [line], text: 't', ready: true },
      { type: 'promise-line', line, due: '2026-04-01', by: 'brook' },
    ];
    expect(ladder([...steps, on('2026-03-24'), moved], chased)).toEqual([
      'check 2026-03-30T08:00',
      'chase 2026-04-02T08:00',
    ]);
  });
});

describe('nobody is written to', () => {
  it('who is not in the chat, or not known, or has promised nothing', () => {
    expect(ladder(out('2026-03-02', '2026-03-20'), { isLinked: () => false })).toEqual([]);
    expect(ladder([opened(), { ...sent(RIM, null), due: '2026-03-20' }])).toEqual([]);
    expect(ladder([opened(), sent(RIM, 'brook')])).toEqual([]);
  });

  it('about what is back or refused; about the rest of a part, yes', () => {
    const steps = out('2026-03-02', '2026-03-06');
    expect(ladder([...steps, back(RIM)])).toEqual([]);
    expect(ladder([...steps, back(RIM, { outcome: 'refused' })])).toEqual([]);
    expect(ladder([...steps, back(RIM, { outcome: 'part' })])).toEqual(['chase 2026-03-09T09:00']);
  });
});

describe('the next due', () => {
  const { state } = given(...out('2026-03-02', '2026-03-06'));

  it('is the earliest of all', () => {
    expect(nextDueAt(state, dueContext({ isLinked: (person) => person === 'brook' }))).toBe(
      Date.parse('2026-03-09T09:00Z'),
    );
    expect(nextDueAt(given(opened()).state, dueContext({ isLinked: () => false }))).toBeNull();
    expect(nextDueAt(given().state, dueContext())).toBeNull();
  });

  it.each([
    ['when they next open, tried in the evening', '2026-03-09T18:30Z', '2026-03-10T09:00Z'],
    ['when they next open, tried before they do', '2026-03-10T07:10Z', '2026-03-10T09:00Z'],
    ['the next working day, where they had their message', '2026-03-13T10:00Z', '2026-03-16T09:00Z'],
  ])('of what could not be said comes %s', (_what, now, next) => {
    const context = dueContext({ isLinked: (person) => person === 'brook' });
    expect(nextDueAfter(state, context, Date.parse(now))).toBe(Date.parse(next));
  });
});
