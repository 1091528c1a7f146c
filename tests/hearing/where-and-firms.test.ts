import { describe, expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';

const read = (text: string) => readMessage(text, { today: '2026-03-02', spoken: false });

describe('a listener', () => {
  it.each([
    ['crankcase is cracked under the main bearing', 'crankcase'],
    ['mudguard split by the stay', 'mudguard'],
    ['petrol tank rusty behind the filler cap', 'petrol tank'],
  ])('takes no part for a thing of its own that only says where a fault is: %s', (text, part) => {
    expect(read(text).items.map((item) => item.part)).toEqual([part]);
  });

  it.each([
    ['sent the seat to hobb and sons', 'hobb and sons'],
    ['ordered a silencer from old mill spares, 95 quid', 'old mill spares'],
    ['sent the seat off to be covered with thrapley and hobbin', 'thrapley and hobbin'],
  ])('hears a firm’s whole name in small letters: %s', (text, supplier) => {
    expect(read(text).items[0]?.supplier).toBe(supplier);
  });

  it.each([
    ['road tested it, ran sweet as a nut', 'pass'],
    ['road tested it, jumped out of third', 'fail'],
  ])('hears how a ride went: %s', (text, outcome) => {
    expect(read(text).items[0]).toMatchObject({ act: 'tested', outcome });
  });
});
