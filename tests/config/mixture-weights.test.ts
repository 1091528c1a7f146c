import { expect, it } from 'vitest';
import { DumpError, mixtureWeightsOf } from '../../config/speech/mixture-weights.js';

/** A dump as pocketsphinx reads it: its head's lines, the numbers of Gaussians and states, then the bytes. */
function dumpOf(
  lines: readonly string[],
  gaussians: number,
  states: number,
  bytes: readonly number[],
): Buffer {
  const line = (text: string): Buffer => {
    const length = Buffer.alloc(4);
    length.writeUInt32LE(text.length + 1);
    return Buffer.concat([length, Buffer.from(`${text}\0`)]);
  };
  const sizes = Buffer.from(Uint32Array.of(0, gaussians, states).buffer);
  return Buffer.concat([...lines.map(line), sizes, Buffer.from(bytes)]);
}

it('gives the weights by state, feature and Gaussian', () => {
  // Two features, two Gaussians, three states; the bytes by feature, Gaussian, state.
  const bytes = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11];
  const file = mixtureWeightsOf(dumpOf(['feature_count 2', 'cluster_count 0'], 2, 3, bytes));
  const head = 's3\nversion 1.0\nchksum0 yes\nendhdr\n';
  expect(file.toString('latin1', 0, head.length)).toBe(head);
  const numbers = Array.from({ length: 5 }, (_, at) => file.readUInt32LE(head.length + at * 4));
  expect(numbers).toEqual([0x11223344, 3, 2, 2, 12]);
  const weights = Array.from({ length: 12 }, (_, at) => file.readFloatLE(head.length + 20 + at * 4));
  // A byte is the negative logarithm to base 1.0001, in steps of 1024 (pocketsphinx, ptm_mgau.c and s2_semi_mgau.c).
  const logs = weights.map((weight) => Math.round(Math.log(1 / weight) / Math.log(1.0001) / 1024));
  expect(logs).toEqual([0, 3, 6, 9, 1, 4, 7, 10, 2, 5, 8, 11]);
});

it.each([
  ['clustered', dumpOf(['feature_count 1', 'cluster_count 16'], 1, 1, [0])],
  ['cut short', dumpOf(['feature_count 1'], 2, 2, [0, 0, 0])],
  ['empty', Buffer.alloc(0)],
])('refuses a dump that is %s', (_what, dump) => {
  expect(() => mixtureWeightsOf(dump)).toThrow(DumpError);
});
