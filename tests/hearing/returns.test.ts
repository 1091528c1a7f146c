import { describe, expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import type { ItemReading } from '../../src/hearing/reading.js';
import { handedBackUndone, mayHaveCome } from '../../src/hearing/returns.js';

// What people say is invented; that work not done is still to be done is common practice, no source.

function first(text: string): ItemReading {
  const item = readMessage(text, { today: '2026-03-02' }).items[0];
  if (!item) throw new Error(`nothing is read from ${text}`);
  return item;
}

describe('what a supplier hands back', () => {
  it.each([
    'front rim back from Brindlewick, not done',
    'front rim back from Brindlewick, it wasn’t done',
    'front rim back from Brindlewick, hasn’t been touched',
    'front rim back from Brindlewick, they didn’t do it',
    'front rim back from Brindlewick, they couldn’t manage it',
  ])('is still to be done: “%s”', (text) => {
    const item = first(text);
    expect(item.act).toBe('back');
    expect(handedBackUndone(item, text).outcome).toBe('refused');
  });

  it.each(['front rim back from Brindlewick, done nicely', 'front rim back from Brindlewick'])(
    'is done: “%s”',
    (text) => {
      expect(handedBackUndone(first(text), text)).toEqual(first(text));
    },
  );

  it('is left as it is where only part of it came, or something else was told', () => {
    const part = { ...first('front rim back from Brindlewick'), outcome: 'part' as const };
    expect(handedBackUndone(part, 'two back, the others not done')).toBe(part);
    const found = first('front rim rusty, not done');
    expect(handedBackUndone(found, 'front rim rusty, not done')).toBe(found);
  });
});

describe('“are in”', () => {
  it.each<[string, boolean]>([
    ['wheel bearings are in', true],
    ['the magneto’s in', true],
    ['wheel bearings are in, pressed in this morning', false],
    ['fitted the wheel bearings', false],
  ])('of “%s”: may have come: %j', (text, come) => {
    expect(mayHaveCome({ ...first('wheel bearings are in'), act: 'fitted' }, text)).toBe(come);
  });
});
