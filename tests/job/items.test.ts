import { describe, expect, it } from 'vitest';
import { given } from '../support/given.js';
import {
  back,
  found,
  holds,
  itemOf,
  NOTHING,
  number,
  opened,
  ordered,
  pounds,
  sent,
  several,
  the,
  tookOff,
} from './talk.js';

const TANK = the('petrol tank');

describe('the strip list', () => {
  it('numbers things as they are first spoken of', () => {
    const { state } = given(opened(), tookOff(the('magneto'), { stored: 'box 3' }), found(the('chain')));
    expect(itemOf(state, 1)).toMatchObject({
      part: 'magneto',
      group: 'ignition',
      stored: 'box 3',
      takenOff: true,
    });
    expect(itemOf(state, 2)).toMatchObject({ part: 'chain', takenOff: false });
  });

  it('tells left from right, and adds a side said for the first time', () => {
    const left = given(opened(), found(the('footrest', 'left')));
    expect(Object.keys(left.and(found(the('footrest', 'right'))).state.items)).toHaveLength(2);
    const sided = given(opened(), found(the('footrest'))).when(found(the('footrest', 'left')));
    sided.then({ type: 'item-corrected', data: { place: ['left'] } }, 'finding-logged');
  });

  it('gives no side to a pair that one of it was said of', () => {
    const pair = given(opened(), found(several(2, 'footrest')));
    const { state } = pair.and(found(the('footrest', 'left'), { conditions: ['bent'] }));
    expect(itemOf(state, 1)).toMatchObject({ place: [], count: 2 });
    expect(itemOf(state, 1).findings.at(-1)?.place).toEqual(['left']);
  });

  it('takes one side of a pair listed together for the pair', () => {
    const both = given(
      opened(),
      found(several(2, 'footrest', 'left', 'right')),
      found(the('footrest', 'left')),
    );
    expect(Object.keys(both.state.items)).toEqual(['1']);
  });

  it('takes both for each, where each is listed by itself', () => {
    const two = given(opened(), found(the('footrest', 'left')), found(the('footrest', 'right')));
    const bent = found(several(2, 'footrest', 'left', 'right'), {
      conditions: ['bent'],
      remedy: 'repair',
      cost: pounds(30),
    });
    const { state } = two.and(bent);
    for (const item of [1, 2])
      expect(itemOf(state, item)).toMatchObject({ remedy: 'repair', cost: pounds(15) });
    const counted = two.and(
      found(several(2, 'footrest'), { remedy: 'replace', cost: pounds(15, { each: true }) }),
    );
    for (const item of [1, 2])
      expect(itemOf(counted.state, item)).toMatchObject({
        remedy: 'replace',
        cost: { amount: 15, each: true },
      });
  });

  it('asks which, where one of several could be meant', () => {
    const two = given(opened(), found(the('footrest', 'left')), found(the('footrest', 'right')));
    two
      .when(found(the('footrest'), { conditions: ['bent'] }))
      .refusedFor({ why: 'which-item', candidates: [1, 2] });
  });

  it('wants to know what is spoken of', () => {
    given(opened())
      .when(found(number(7)))
      .refusedFor({ why: 'no-such-item', item: 7 });
    given(opened()).when(found(NOTHING)).refusedFor({ why: 'nothing-named' });
    given().when(found(TANK)).refusedFor({ why: 'no-job' });
    given(opened()).when(opened()).refusedFor({ why: 'job-exists' });
  });

  it('can be corrected', () => {
    const job = given(opened(), found(the('chain'), { conditions: ['worn'] }));
    const pawl = job.when({ type: 'correct-item', item: 1, part: 'pawl', place: [], count: null });
    pawl.then({ type: 'item-corrected', data: { part: 'pawl' } });
    expect(itemOf(pawl.state, 1).findings).toHaveLength(1);
    job
      .when({ type: 'correct-item', item: 2, part: 'pawl', place: [], count: null })
      .refusedFor({ why: 'no-such-item', item: 2 });
  });

  it('takes a count of nothing for none said', () => {
    expect(itemOf(given(opened(), found(several(0, 'spoke'))).state, 1).count).toBeNull();
  });

  it('is not added to by a note', () => {
    const job = given(opened(), found(TANK));
    job
      .when({ type: 'keep-note', target: the('tank badge'), text: 't', attachments: [] })
      .then({ type: 'note-kept', data: { item: null } });
    job
      .when({ type: 'keep-note', target: TANK, text: 't', attachments: [] })
      .then({ type: 'note-kept', data: { item: 1 } });
    job
      .when({ type: 'keep-note', target: number(9), text: 't', attachments: [] })
      .then({ type: 'note-kept', data: { item: null } });
  });

  it('keeps what it arrived as, its owner and what became of its pictures', () => {
    const picture = { kind: 'photo', unique: 'u1', handle: 'h1' } as const;
    const { state } = given(
      opened({ owner: null, arrival: { text: 'a', attachments: [picture] } }),
      { type: 'note-arrival', text: 'b', attachments: [] },
      { type: 'name-owner', owner: 'owner-2' },
      { type: 'attachment-fetched', unique: 'u1', hash: 'abc' },
      { type: 'attachment-lost', unique: 'u2', why: 'too-big' },
    );
    expect(state.arrival.map(({ text }) => text)).toEqual(['a', 'b']);
    expect(state.owner).toBe('owner-2');
    expect(state.fetched).toEqual({ u1: { hash: 'abc' }, u2: { lost: 'too-big' } });
  });

  it('prices a thing by name or number', () => {
    const { state } = given(
      opened(),
      found(TANK),
      { type: 'price', target: number(1), cost: pounds(12) },
      { type: 'price', target: the('chain'), cost: pounds(40) },
    );
    expect([itemOf(state, 1).cost?.amount, itemOf(state, 2).cost?.amount]).toEqual([12, 40]);
  });

  it('gives each caution once for an item', () => {
    const job = given(opened(), found(TANK, { remedy: 'repair', processes: ['weld'] }));
    const cautions = itemOf(job.state, 1).cautions;
    expect(cautions.length).toBeGreaterThan(0);
    expect(new Set(cautions).size).toBe(cautions.length);
    expect(itemOf(job.and(found(TANK, { remedy: 'repair', processes: ['weld'] })).state, 1).cautions).toEqual(
      cautions,
    );
  });
});

describe('a remedy', () => {
  it('said again of work in hand keeps what was done, and adds to it', () => {
    const job = given(
      opened(),
      found(TANK, { remedy: 'send-out', processes: ['blast', 'paint'] }),
      sent(TANK, 'grit', 'blast'),
      back(TANK),
    );
    const more = job.and(found(TANK, { remedy: 'send-out', processes: ['line-tank'] }));
    expect(itemOf(more.state, 1)).toMatchObject({
      processes: ['blast', 'paint', 'line-tank'],
      processesDone: ['blast'],
    });
    expect(itemOf(job.and(found(TANK, { remedy: 'send-out' })).state, 1)).toMatchObject({
      processes: ['blast', 'paint'],
      processesDone: ['blast'],
    });
  });

  it('said again of work that is done is new work', () => {
    const job = given(opened(), sent(TANK, 'marsh', 'paint'), back(TANK));
    expect(holds(job.state, 'reassembled')).toEqual([]);
    const again = job.and(found(TANK, { conditions: ['chipped'], remedy: 'send-out' }));
    expect(itemOf(again.state, 1)).toMatchObject({
      processes: ['paint'],
      processesDone: [],
      returned: false,
    });
    expect(holds(again.state, 'reassembled')).toEqual(['still-here 1']);
    const cleaned = given(opened(), found(TANK, { remedy: 'clean' }), { type: 'work-done', target: TANK });
    expect(holds(cleaned.and(found(TANK, { remedy: 'clean' })).state, 'reassembled')).toEqual([
      'work-undone 1',
    ]);
  });

  it('of another kind starts afresh', () => {
    const job = given(opened(), sent(TANK, 'marsh', 'paint'), back(TANK), found(TANK, { remedy: 'replace' }));
    expect(itemOf(job.state, 1)).toMatchObject({ processes: [], returned: false });
    expect(holds(job.state, 'parts-ordered')).toEqual(['not-ordered 1']);
  });

  it('changed while the thing is out leaves it out', () => {
    const job = given(opened(), sent(TANK, 'marsh', 'paint'), found(TANK, { remedy: 'keep' }));
    expect(holds(job.state, 'reassembled')).toEqual(['out 1']);
    expect(holds(job.and(back(TANK)).state, 'reassembled')).toEqual([]);
  });

  it('to keep or look again takes nothing off the machine; other work does', () => {
    const job = given(opened(), { ...found(TANK), type: 'fit' } as never);
    for (const [remedy, isFitted] of [
      ['keep', true],
      ['check', true],
      ['clean', false],
      ['replace', false],
    ] as const) {
      expect(itemOf(job.and(found(TANK, { remedy })).state, 1).fitted, remedy).toBe(isFitted);
    }
  });

  it('to be done in the shop is done when it is said to be, whatever was decided', () => {
    const done = { type: 'work-done', target: TANK } as const;
    given(opened(), found(TANK, { remedy: 'make' }))
      .when(done)
      .then('work-done');
    given(opened(), found(TANK, { remedy: 'send-out' }))
      .when(done)
      .then({ type: 'remedy-decided', data: { remedy: 'repair' } }, 'work-done');
    given(opened()).when(done).then('item-listed', 'remedy-decided', 'work-done');
    given(opened(), found(TANK, { remedy: 'make' }), done)
      .when(done)
      .then();
    given(opened(), ordered(TANK), back(TANK)).when(done).then();
  });
});
