import { describe, expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import type { ItemReading } from '../../src/hearing/reading.js';
import { handedBackUndone } from '../../src/hearing/returns.js';

const itemsOf = (text: string): ItemReading[] => readMessage(text, { today: '2026-07-01' }).items;

// How it is said is common practice, no source.
describe('what an owner leaves is refused', () => {
  it.each([
    ['owner says go ahead with the tank but leave the seat', ['petrol tank yes', 'seat no']],
    ['Mrs Dale says yes to the rims, leave the handlebars', ['wheel rim yes', 'handlebar no']],
  ])('“%s”', (text, wanted) => {
    const said = itemsOf(text).map(({ part, outcome }) => `${part} ${outcome}`);
    expect(said.map((each) => each.replace('saddle', 'seat'))).toEqual(wanted);
  });

  it('but what we leave till later is not', () => {
    const said = itemsOf('owner agreed to the rims, I’ll leave the tank till Monday');
    expect(said.filter(({ act, outcome }) => act === 'agreed' && outcome === 'no')).toEqual([]);
  });
});

describe('what came back done', () => {
  it.each(['rims back from the plater, didn’t take long', 'head back, can’t do better than that'])(
    'is not undone: “%s”',
    (text) => {
      const [item] = itemsOf(text);
      expect(item && handedBackUndone(item, text).outcome).toBe('all');
    },
  );

  it.each(['rims back from the plater, couldn’t do them', 'rims back, they won’t touch it.'])(
    'is, where it is: “%s”',
    (text) => {
      const [item] = itemsOf(text);
      expect(item && handedBackUndone(item, text).outcome).toBe('refused');
    },
  );
});

describe('words that look like something else', () => {
  it.each(['Don’t order the tyres.', 'Haven’t sent the tank.', 'Shouldn’t have sent the tank.'])(
    'name no firm: “%s”',
    (text) =>
      expect(
        itemsOf(text)
          .map(({ supplier }) => supplier)
          .filter(Boolean),
      ).toEqual([]),
  );

  it.each(['he rings on Friday', 'Give the plater a ring about the rims'])(
    'are no piston ring: “%s”',
    (text) => expect(itemsOf(text).map(({ part }) => part)).not.toContain('piston ring'),
  );

  it.each(['Spent two hours on the forks', 'engine’s dead quiet'])(
    'tell of nothing worn or broken: “%s”',
    (text) => expect(itemsOf(text).flatMap(({ conditions }) => conditions)).toEqual([]),
  );

  it('the left pot is a cylinder', () => {
    expect(itemsOf('exhaust valve in the left pot is burnt')).toMatchObject([{ stored: null }]);
  });
});
