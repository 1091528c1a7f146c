import { describe, expect, test } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';

const read = (text: string): { machine: string | null; items: string[] } => {
  const { machine, items } = readMessage(text, { today: '2026-03-02' });
  return {
    machine,
    items: items.map(({ act, part, count, place, conditions, remedy, outcome, stored }) =>
      [act, part, count, ...place, ...conditions, remedy, outcome, stored]
        .filter((value) => value !== null)
        .join(' '),
    ),
  };
};

// Plain behaviour on invented messages: what each item's act is, and what makes no item.
describe('what was done, found and come back', () => {
  test.each<[what: string, text: string, items: string[]]>([
    [
      'a ride is one thing, what was found on it another',
      'took her up the bypass, pulls well but the forks are leaking',
      ['tested fail', 'finding telescopic fork leaking'],
    ],
    [
      'a result told after the thing stays with it',
      'road tested, clutch slips, fail',
      ['tested clutch fail'],
    ],
    ['what came back with nothing against it', 'rims home from Dunmarsh, grand job', ['back wheel rim all']],
    [
      'why a thing goes back is no thing of its own',
      'horn turned up, wrong bracket, sending it back',
      ['back horn incorrect refused'],
    ],
    [
      'what came back no good',
      'guard is back from Dunmarsh with a run in it, it is no good to us',
      ['back mudguard refused'],
    ],
    [
      'what sent things are to get',
      'took both wheels to Dunmarsh, new rims, he says a month',
      ['sent wheel 2'],
    ],
    [
      'new things told with what went in',
      'Sliders back in, new seals',
      ['fitted fork slider', 'fitted fork seal'],
    ],
    ['done up as it went in', 'head bearings in, greased and adjusted', ['fitted steering head bearing']],
    ['in its place', 'both mains are in the cases', ['fitted main bearing 2']],
    [
      'done to both, found on one',
      "Sliders off. Left one's dented",
      ['stripped fork slider', 'finding fork slider left dented'],
    ],
    [
      'said without a pause',
      'brake plate is off the shoes are glazed',
      ['stripped brake plate', 'finding brake shoe glazed'],
    ],
    [
      'kept together',
      "took the tank badges off and the knee grips, they're in bag 3",
      ['stripped petrol tank badge bag 3', 'stripped knee grip bag 3'],
    ],
    ['where on one thing', "dynamo's dead, no charge either side", ['finding dynamo broken']],
  ])('%s', (_, text, items) => {
    expect(read(text).items).toStrictEqual(items);
  });
});

describe('how many are meant', () => {
  test.each<[text: string, items: string[]]>([
    [
      'chain stretched and the sprocket is hooked, replace the two of them',
      ['finding chain stretched replace', 'finding sprocket worn replace'],
    ],
    [
      'tank dented, toolbox rusty, chainguard cracked. All three to Garside for paint',
      [
        'finding petrol tank dented send-out',
        'finding tool box rusty send-out',
        'finding chain guard cracked send-out',
      ],
    ],
    ['cam followers pitted, both of them', ['finding cam follower 2 pitted']],
    [
      "left stanchion's pitted, right one's bent. Stanchions to Dunmarsh for hard chrome",
      ['finding fork stanchion left pitted send-out', 'finding fork stanchion right bent send-out'],
    ],
    [
      'plain plates scored, friction ones glazed',
      ['finding plain clutch plate scored', 'finding clutch plate glazed'],
    ],
    ['Front wheel. Rim rusty, spokes loose', ['finding wheel rim front rusty', 'finding spoke front loose']],
  ])('%s', (text, items) => {
    expect(read(text).items).toStrictEqual(items);
  });
});

describe('what is no item', () => {
  test.each([
    "rain's coming in under the roller door again",
    "don't use the bolts in the old jar",
    'cancel that carb, found one on the shelf',
    'remember to ring the wife',
    "tell Dave the shutter's stuck again",
  ])('%s', (text) => {
    expect(read(text).items).toStrictEqual([]);
  });
});

describe('the machine that heads a message', () => {
  test.each<[text: string, machine: string | null]>([
    ['Brackenshaw. Both stanchions pitted', 'Brackenshaw'],
    ['Pendle 250 - cups good, balls rusty', 'Pendle 250'],
    ['Right, Osgrave. Rocker box is off', 'Osgrave'],
    ["Corrane's been round the loop. Passed", 'Corrane'],
    ['Took her over the Corwick, passed', null],
    ['Thanks. Tank is good', null],
  ])('%s', (text, machine) => {
    expect(read(text).machine).toBe(machine);
  });
});
