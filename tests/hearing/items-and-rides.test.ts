import { describe, expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';

// Invented sayings; the readings follow the contract of a read message.
const read = (text: string) => {
  const { machine, items } = readMessage(text, { today: '2026-03-02' });
  return {
    machine,
    items: items.map(({ act, part, outcome, conditions, remedy }) =>
      [act, part, outcome, ...conditions, remedy].filter((one) => one !== null).join(' '),
    ),
  };
};

describe('rides', () => {
  it.each([
    ['had her out on the moor road, twelve miles, head gasket weeping', 'cylinder head gasket leaking'],
    ['rode it into town and back, speedo stuck', 'speedometer seized'],
    ['took it out for nine miles, horn loose', 'horn loose'],
  ])('%s', (text, found) => {
    expect(read(text).items).toEqual(['tested fail', `finding ${found}`]);
  });
  it('a ride called a pass stays one', () => {
    expect(read('road test, nine miles: passed, clock stuck though').items[0]).toMatch(/^tested .*pass/);
  });
});

describe('machines', () => {
  it.each([
    ["Tressock's landed. Bars bent", 'Tressock', ['finding handlebar bent']],
    ["Wexbury loom's perished", 'Wexbury', ['finding wiring loom perished']],
    ["Colley won't start. Magneto weak", 'Colley', ['finding magneto weak']],
  ])('%s', (text, machine, items) => {
    expect(read(text)).toEqual({ machine, items });
  });
});

describe('where things stand', () => {
  it.each([
    ['both yokes away to Kelham, straightening', ['sent fork yoke']],
    ['the bush measures fine so it can go back in', ['finding bush good keep']],
    [
      'Bits all there bar the kickstart lever and the horn',
      ['finding kickstart lever missing', 'finding horn missing'],
    ],
    ["under the seat there's a split in the loom", ['finding wiring loom split']],
    ['if that traveller rings back tell him no', []],
    ['Frnt whl brngs bk frm plater', ['back wheel bearing all']],
  ])('%s', (text, items) => {
    expect(read(text).items).toEqual(items);
  });
});
