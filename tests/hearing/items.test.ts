import { describe, expect, test } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';

const read = (text: string, spoken = false): string[] =>
  readMessage(text, { today: '2026-03-02', ...(spoken ? { spoken } : {}) }).items.map((item) =>
    [
      item.part,
      item.place.join('+'),
      item.conditions.join('+'),
      item.remedy ?? '',
      item.processes.join('+'),
    ].join('/'),
  );

// Plain behaviour on invented messages: which things are items, and what is told of which.
describe('which things are items', () => {
  test.each([
    [
      'a new one is no thing of its own',
      'Timing cover screws are butchered. Eight new socket screws',
      ['timing cover screw//bodged/replace/'],
    ],
    [
      'nor is one of another make-up',
      'Head gasket blowing on the drive side. New copper one',
      ['cylinder head gasket/drive-side/leaking/replace/'],
    ],
    [
      'where a fault is',
      'front brake plate cracked right round the anchor boss',
      ['brake plate/front/cracked//'],
    ],
    [
      'where it meets another thing',
      'Cracked lug on the frame where the tank bolts on',
      ['frame lug//cracked//'],
    ],
    ['what it was put back in', 'Gearbox is back in the frame', ['gearbox////']],
    [
      'a thing looked at only',
      "I've had a look at the gearbox and the selector fork's bent",
      ['selector fork//bent//'],
    ],
    [
      'what a thing has that is faulty',
      'the gearbox has a cracked outer cover',
      ['gearbox outer cover/outer/cracked//'],
    ],
    ['what is not there', "there's no tab washer under it", ['tab washer//missing//']],
    [
      'one of what was spoken of',
      "New clutch cable's on, front brake one too",
      ['clutch cable////', 'brake cable/front///'],
    ],
  ])('%s', (_, text, items) => {
    expect(read(text)).toEqual(items);
  });
});

describe('what is told of which', () => {
  test.each([
    [
      'a decision goes to the fault',
      'Small end bush worn, gudgeon pin fine, replace it',
      ['small end bush//worn/replace/', 'gudgeon pin//good//'],
    ],
    [
      'a work to the fault it cures',
      'near side footrest is bent and the rubber is perished, straighten it',
      ['footrest/left/bent/repair/straighten', 'footrest rubber//perished//'],
    ],
    [
      'both of them',
      'primary chain stretched, tensioner blade worn right through, replace the both of them',
      ['primary chain//stretched/replace/', 'primary chain tensioner//worn/replace/'],
    ],
    [
      'the other place',
      'wheel bearings noisy at the front, rear ones fine, replace the fronts',
      ['wheel bearing/front/noisy/replace/', 'wheel bearing/rear/good//'],
    ],
    ['a side corrected', 'left footrest bent, no, the right one', ['footrest/right/bent//']],
    [
      'a correction said after',
      'rear wheel bearing worn, er, front wheel bearing I should say',
      ['wheel bearing/front/worn//'],
    ],
    [
      'except',
      'everything in the gearbox is fine except the kickstart ratchet, that one is seized',
      ['gearbox//good//', 'kickstart ratchet//seized//'],
    ],
  ])('%s', (_, text, items) => {
    expect(read(text)).toEqual(items);
  });

  test('without a pause', () => {
    expect(read('took the gearbox apart the layshaft bush is worn', true)).toEqual([
      'gearbox////',
      'layshaft bush//worn//',
    ]);
  });
});
