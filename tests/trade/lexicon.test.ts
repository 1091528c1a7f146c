import { doubleMetaphone } from 'double-metaphone';
import { distance } from 'fastest-levenshtein';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lexicon } from '../../src/trade/lexicon/load.js';
import type { Part } from '../../src/trade/lexicon/schema.js';

const { parts } = lexicon;
const byName = (name: string): Part | undefined => lexicon.byName(name);
const namesOf = (part: Part): string[] => [part.name, ...part.also];
const fold = (name: string): string => name.toLowerCase().replaceAll('-', ' ');

describe('the lexicon as it ships', () => {
  it('should hold 750 parts or more in at least ten areas', () => {
    expect(parts.length).toBeGreaterThanOrEqual(750);
    expect(new Set(parts.map((part) => part.area)).size).toBeGreaterThanOrEqual(10);
  });

  it('should give no word to two parts, as canonical, other or misheard name', () => {
    const words = parts.flatMap((part) => [...namesOf(part), ...part.misheard]).map(fold);
    expect(words.filter((word, index) => words.indexOf(word) !== index)).toEqual([]);
  });

  it('should write every name in lower case without needless spaces', () => {
    const words = parts.flatMap((part) => [...namesOf(part), ...part.misheard]);
    expect(words.filter((word) => word !== word.toLowerCase().replace(/\s+/g, ' ').trim())).toEqual([]);
  });

  it('should name parts in the singular, where English has one', () => {
    const known = new Set(parts.flatMap(namesOf));
    const plurals = [...known].filter((name) => /[^s]s$/.test(name) && known.has(name.slice(0, -1)));
    // Said as one thing in the plural only; 'breaker point' stands beside them.
    expect(plurals.filter((name) => !name.endsWith('points'))).toEqual([]);
    const endingInS = parts.map((part) => part.name).filter((name) => /[^s]s$/.test(name));
    expect(endingInS.filter((name) => !/(^| )(lens|clevis|chassis)$/.test(name))).toEqual([
      'contact breaker points',
    ]);
  });

  it('should put parts within parts without a circle', () => {
    const circular = parts.filter((part) => {
      const seen = new Set<string>();
      const open = [...part.within];
      for (let name = open.pop(); name !== undefined; name = open.pop()) {
        if (name === part.name) return true;
        if (!seen.has(name)) open.push(...(byName(name)?.within ?? []));
        seen.add(name);
      }
      return false;
    });
    expect(circular.map((part) => part.name)).toEqual([]);
  });

  it('should give left and right together, and a pair only of what has both', () => {
    const lopsided = parts.filter(
      ({ sides, name }) =>
        sides.includes('left') !== sides.includes('right') &&
        // Common practice, no source: clutch at the left hand, throttle and front brake at the right.
        !['clutch lever', 'brake lever', 'twist grip'].includes(name),
    );
    expect(lopsided.map((part) => part.name)).toEqual([]);
  });

  it('should know the parts of the worked readings by the names written there', () => {
    const written =
      'footrest, brake shoe, valve guide, cylinder head, speedometer, dynamo, lever, spoke, wheel bearing, spindle nut, ' +
      'cylinder bore, wheel rim, gearbox sprocket, chain, primary chaincase, fork stanchion, magneto, petrol tank, ' +
      'side panel, mudguard';
    expect(written.split(', ').filter((name) => byName(name)?.name !== name)).toEqual([]);
  });

  // Common practice, no source.
  it.each([
    ['speedo', 'speedometer'],
    ['mag', 'magneto'],
    ['carb', 'carburettor'],
    ['fork tube', 'fork stanchion'],
    ['gas tank', 'petrol tank'],
    ['wrist pin', 'gudgeon pin'],
    ['fender', 'mudguard'],
    ['muffler', 'silencer'],
    ['con rod', 'connecting rod'],
    ['big end', 'big end bearing'],
    ['points', 'contact breaker points'],
    ['prop stand', 'side stand'],
    ['triple tree', 'fork yoke'],
    ['axle', 'wheel spindle'],
  ])('should take %s for a %s', (said, name) => {
    expect(byName(said)?.name).toBe(name);
  });

  it('should list the station as misheard for the stanchion, never as its name', () => {
    expect(byName('fork stanchion')?.misheard).toContain('station');
    expect(byName('station')).toBeUndefined();
  });

  it('should give ambiguous everyday words a generic part of their own', () => {
    const generic =
      'spindle, bearing, bush, cover, gasket, spring, tube, nut, bolt, screw, washer, pin, cable, lamp, shaft, bracket';
    expect(generic.split(', ').filter((word) => byName(word)?.name !== word)).toEqual([]);
  });
});

/** How unlike two names sound or look: 0 alike, 1 nothing in common. */
const unlike = (one: string, other: string): number => {
  const letters = (text: string): string => text.replace(/[^a-z]/g, '');
  const [a, b] = [doubleMetaphone(letters(one))[0], doubleMetaphone(letters(other))[0]];
  return Math.min(
    distance(one, other) / Math.max(one.length, other.length),
    distance(a, b) / Math.max(a.length, b.length, 1),
  );
};

describe('properties', () => {
  const anyPart = fc.constantFrom(...parts);

  it('should find a part by any of its names, in any case, with hyphens or spaces', () => {
    const spelt = anyPart.chain((part) =>
      fc.record({
        part: fc.constant(part),
        name: fc.constantFrom(...namesOf(part)),
        upper: fc.boolean(),
        spaced: fc.boolean(),
      }),
    );
    fc.assert(
      fc.property(spelt, ({ part, name, upper, spaced }) => {
        const said = spaced ? ` ${name.replaceAll('-', '  ')} ` : name.replaceAll(' ', '-');
        expect(byName(upper ? said.toUpperCase() : said)).toBe(part);
      }),
      { numRuns: 500 },
    );
  });

  it('should find nothing by what is only misheard', () => {
    const misheard = parts.flatMap((part) => part.misheard);
    fc.assert(fc.property(fc.constantFrom(...misheard), (word) => byName(word) === undefined));
  });

  it('should list as misheard only what sounds somewhat like one of the names', () => {
    const far = parts.flatMap((part) =>
      part.misheard
        .filter((word) => namesOf(part).every((name) => unlike(name, word) > 0.6))
        .map((word) => `${word} for ${part.name}`),
    );
    expect(far).toEqual([]);
  });
});
