import { describe, expect, test } from 'vitest';
import { understood } from '../../../src/hearing/read-message.js';
import type { ItemReading } from '../../../src/hearing/reading.js';
import { relationSigns } from '../../../src/hearing/sureness/relation-signs.js';
import type { Signs } from '../../../src/hearing/sureness/signs.js';
import { surroundings } from '../../../src/hearing/sureness/surroundings.js';

const TODAY = '2026-03-02';

/** The signs of each thing read, with what a reader might have made of it put in its place. */
function signsOf(said: string, ...instead: Partial<ItemReading>[]): Signs[] {
  const { reading, evidence } = understood(said, { today: TODAY });
  const items = reading.items.map((item, at): ItemReading => ({ ...item, ...instead[at] }));
  const around = surroundings(items, evidence);
  return items.map((_, at) => relationSigns(around, at));
}

describe('how one thing read stands to the others', () => {
  test('shows where what mends a fault was taken for another thing of the same noun', () => {
    const [first, second] = signsOf(
      'inlet valve burnt, horn rusty',
      { part: 'inlet valve', conditions: ['burnt'], remedy: null },
      { part: 'valve', conditions: [], remedy: 'replace' },
    );
    expect(first).toMatchObject({ kinAfter: 1, kinBefore: 0, mendedByKin: 1, othersDecided: 1 });
    expect(second).toMatchObject({ kinBefore: 1, mendsKin: 1, mendsOther: 1 });
  });

  test('shows nothing of the kind between strangers that each have their own', () => {
    for (const signs of signsOf('footrest bent, straighten it, horn broken, replace it'))
      expect(signs).toMatchObject({ kinBefore: 0, kinAfter: 0, mendsKin: 0, mendedByKin: 0, mendsOther: 0 });
  });

  test('tells a thing named in passing from one that is spoken of', () => {
    expect(signsOf('crack in the footrest')[0]).toMatchObject({ led: 1, 'led by in': 1 });
    expect(signsOf('footrest cracked')[0]).toMatchObject({ unled: 1 });
  });

  test('finds words of doing where nothing was decided', () => {
    expect(signsOf('footrest bent, zorble it here', { remedy: null })[0]).toMatchObject({
      doerUndecided: 1,
      deedUndecided: 1,
    });
    expect(signsOf('footrest bent', { remedy: null })[0]).toMatchObject({
      doerUndecided: 0,
      deedUndecided: 0,
    });
  });
});
