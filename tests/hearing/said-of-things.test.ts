import { describe, expect, test } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';

const items = (text: string, spoken = false) =>
  readMessage(text, { today: '2026-03-02', ...(spoken ? { spoken } : {}) }).items;

// Plain behaviour on invented messages (today is Monday 2026-03-02): the contract of a read message says what each field holds.
describe('what is told of a thing', () => {
  test.each([
    [
      'mudguard stay bent but i can knock that straight',
      { conditions: ['bent'], remedy: 'repair', processes: ['straighten'] },
    ],
    ['stand bent, I shall press it true', { remedy: 'repair', processes: ['straighten'] }],
    ['tappets pitted, one of them. find me another', { part: 'tappet', remedy: 'replace' }],
    ['lamp shell dented but I can knock that out', { conditions: ['dented'], remedy: 'repair' }],
    [
      'tank: rust inside like a biscuit tin, wants derusting and lining, 85 at the paint man',
      { stored: null, supplier: 'the paint man', cost: { amount: 85 } },
    ],
    ['crank bent like a banana send it to Osgood', { conditions: ['bent'], supplier: 'Osgood' }],
    [
      "wheel's gone to Vesper Wheels, 3 weeks he says, ring him on the 20th",
      { act: 'sent', supplier: 'Vesper Wheels', due: '2026-03-23' },
    ],
    [
      'petrol tank dented near the cap, paint, Tansy says 140',
      { conditions: ['dented'], supplier: 'Tansy', cost: { amount: 140 } },
    ],
    [
      "carb's knackered. new carb 140 from the dealer",
      { remedy: 'replace', supplier: 'the dealer', cost: { amount: 140 } },
    ],
    ['new tyre, sixty five', { remedy: 'replace', cost: { amount: 65 } }],
    ['new main jet, 140', { part: 'main jet', cost: null }],
    ['ordered 56 from the bearing man', { act: 'ordered', cost: null }],
    ["brake drum out of true, i'll skim it on the lathe", { remedy: 'repair', processes: ['skim'] }],
    ["steering damper knob missing, i'll turn one up on the lathe", { remedy: 'make', processes: [] }],
    ["fork crown cracked and it's been brazed up before", { conditions: ['cracked'], processes: [] }],
    [
      "battery carrier's rotten, forget welding it, i'll make one",
      { remedy: 'make', processes: [], conditions: ['rusty'] },
    ],
    ['left stanchion is bent, it can go away for straightening', { act: 'finding', remedy: 'send-out' }],
    ['oil pump scored, I should like it rebuilt by Harbottle & Finch', { remedy: 'send-out' }],
    ['oil seals from Hadley', { remedy: 'replace', supplier: 'Hadley' }],
    ['cush drive hub cracked round two of the holes', { count: null }],
    ['footrest rubbers perished, both of them', { count: 2, place: ['left', 'right'] }],
    ['rear wheel is a good forty thou out', { readings: [{ quantity: 'runout', value: 40, unit: 'thou' }] }],
    ['spindle bent perhaps a sixteenth', { conditions: ['bent'], due: null }],
    ['levers ready three weeks tomorrow', { due: '2026-03-24' }],
  ])('%s', (text, told) => {
    expect(items(text)[0]).toMatchObject(told);
  });
});

describe('what is decided of several at once', () => {
  test.each([
    ['layshaft bush worn, kickstart quadrant chipped, push rod bent. All three new', 3],
    ["tappet adjuster's stripped its thread and there's a push rod bent. All want new", 2],
    ["rear chain stretched and the sprocket's hooked, replace the two of them", 2],
    ["inlet valve's pitted, exhaust valve's burnt, pair of new ones please", 2],
  ])('%s', (text, many) => {
    expect(items(text).map(({ remedy }) => remedy)).toEqual(Array(many).fill('replace'));
  });

  test('a work of its own elsewhere is not shared', () => {
    expect(items('skim the drum, shoes to Garsdale for relining')).toMatchObject([
      { part: 'brake drum', processes: ['skim'], supplier: null },
      { part: 'brake shoe', processes: ['reline'], supplier: 'Garsdale' },
    ]);
  });
});

describe('whom work goes to', () => {
  test.each([
    ['Gwyn the upholsterer says the saddle will be Friday', 'Gwyn the upholsterer'],
    ['Brayshaws just rung, wheels will be Friday', 'Brayshaws'],
    ['Mossgill still want 45 each for the pinions', 'Mossgill'],
    ["head's been to the welder and he won't touch it", 'the welder'],
    ['took the crank down Osgood’s this morning', 'Osgood’s'],
    ['ordered a horn bracket from the Castlegate Cycle Co., nine pounds', 'Castlegate Cycle Co.'],
    ['sent the dial off to the resilvering people', 'the resilvering people'],
    ['pellow rewinds rang, armature will be Friday', 'pellow rewinds'],
    ['ordered a kickstart spring off gannon', 'gannon'],
  ])('%s', (text, supplier) => {
    expect(items(text)[0]?.supplier).toBe(supplier);
  });

  test('what is simply back is all back, a verdict refuses it', () => {
    expect(items('levers back from the plater')[0]?.outcome).toBe('all');
    expect(items("levers back from the plater and they're no use to anyone")[0]?.outcome).toBe('refused');
  });
});

describe('how it is said in the regions, and heard', () => {
  test.each([
    ['oil tank split along the seam ill weld it here', { remedy: 'repair', processes: ['weld'] }],
    ['nae cracks in the barrel', { conditions: [] }],
    ['magneto fae Cairnlea isnae here', { part: 'magneto' }],
    ['the glass is chipped', { conditions: ['chipped'] }],
    ['hubs went out to kelloran for nickel', { processes: ['nickel'], supplier: 'kelloran' }],
  ])('%s', (text, told) => {
    expect(items(text, true)[0]).toMatchObject(told);
  });
});
