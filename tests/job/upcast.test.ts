import { describe, expect, it } from 'vitest';
import { event, jobEventSchemas, SCHEMA_VERSIONS } from '../../src/job/events.js';
import { evolve } from '../../src/job/evolve.js';
import { upcast } from '../../src/job/upcast.js';
import { given } from '../support/given.js';
import { lineOf, opened, sent, the } from './talk.js';

describe('events of older schema versions', () => {
  it('are brought up to date: an answer that did not say whether it was ready', () => {
    const { state } = given(opened(), sent(the('wheel rim'), 'brook'));
    const line = lineOf(state, 1).id;
    const old = { type: 'line-answered', schema: 1, data: { line, text: 't' } };
    const now = upcast(old);
    expect(jobEventSchemas['line-answered'].parse(now.data)).toEqual({ line, text: 't', ready: false });
    expect(now.schema).toBe(SCHEMA_VERSIONS['line-answered']);
    const after = evolve(state, {
      ...event('line-answered', now.data as never),
      version: 9,
      at: 9,
      by: 'brook',
    });
    expect(lineOf(after, 1)).toMatchObject({ answer: 't', answeredAt: 9, readyAt: null });
  });

  it('of the newest version, and of other streams, are left as they are', () => {
    const current = event('line-answered', { line: 'line-1', text: 't', ready: true });
    expect(upcast(current)).toBe(current);
    const other = { type: 'policy-set', schema: 1, data: {} };
    expect(upcast(other)).toBe(other);
  });

  it('newer than this program are not taken at a guess', () => {
    expect(() => upcast({ type: 'line-answered', schema: 99, data: {} })).toThrow(/line-answered.*99/);
  });

  it('can all be brought up: a step for each version that was', () => {
    for (const [type, newest] of Object.entries(SCHEMA_VERSIONS)) {
      for (let schema = 1; schema < newest; schema += 1) {
        expect(upcast({ type, schema, data: {} }).schema).toBe(newest);
      }
    }
  });
});
