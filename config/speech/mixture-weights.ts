/** In the file before the numbers, so that a reader sees their byte order. */
const BYTE_ORDER = 0x11223344;
/** The dump holds logarithms to this base, shifted right by ten bits and negated, each in a byte. */
const LOG_BASE = 1.0001;
const SHIFT = 2 ** 10;

/** The dump is not of the kind that is read here. */
export class DumpError extends Error {
  override readonly name = 'DumpError';
}

/**
 * The weights of an acoustic model's Gaussians in the form that sphinxtrain reads (`mixture_weights`), out of the bytes that pocketsphinx
 * reads (`sendump`, of one byte a weight and not clustered): stored by feature, Gaussian and state, wanted by state, feature and Gaussian.
 * Both forms as sphinxtrain's mk_s2sendump and s3mixw_io write and read them.
 */
export function mixtureWeightsOf(dump: Buffer): Buffer {
  const { features, gaussians, states, at } = headOf(dump);
  const powers = Float32Array.from({ length: 256 }, (_, byte) => LOG_BASE ** (-byte * SHIFT));
  const weights = new Uint32Array(features * gaussians * states);
  const asFloats = new Float32Array(weights.buffer);
  if (dump.length < at + weights.length) throw new DumpError('the dump is cut short');
  for (let feature = 0; feature < features; feature += 1)
    for (let gaussian = 0; gaussian < gaussians; gaussian += 1) {
      const from = at + (feature * gaussians + gaussian) * states;
      for (let state = 0; state < states; state += 1)
        asFloats[(state * features + feature) * gaussians + gaussian] = powers[dump[from + state] ?? 0] ?? 0;
    }
  const sizes = Uint32Array.of(states, features, gaussians, weights.length);
  return Buffer.concat([
    Buffer.from('s3\nversion 1.0\nchksum0 yes\nendhdr\n'),
    ...[Uint32Array.of(BYTE_ORDER), sizes, weights].map((words) => Buffer.from(words.buffer)),
    Buffer.from(Uint32Array.of(checksum(weights, checksum(sizes, 0))).buffer),
  ]);
}

/** The head: lines, each after its length, up to a length of zero; then the numbers of Gaussians and of states. */
function headOf(dump: Buffer): { features: number; gaussians: number; states: number; at: number } {
  const lines: string[] = [];
  let at = 0;
  for (;;) {
    if (at + 12 > dump.length) throw new DumpError('the dump has no end of its head');
    const length = dump.readUInt32LE(at);
    at += 4;
    if (length === 0) break;
    lines.push(dump.toString('latin1', at, at + length - 1));
    at += length;
  }
  const figure = (name: string, otherwise: number): number =>
    Number(lines.find((line) => line.startsWith(`${name} `))?.split(' ')[1] ?? otherwise);
  if (figure('cluster_count', 0) !== 0) throw new DumpError('the dump is clustered');
  const [gaussians, states] = [dump.readUInt32LE(at), dump.readUInt32LE(at + 4)];
  return { features: figure('feature_count', 1), gaussians, states, at: at + 8 };
}

/** Sphinx's: the sum turned left by twenty bits before each word is added. */
function checksum(words: Uint32Array, start: number): number {
  let sum = start;
  for (const word of words) sum = (((sum << 20) | (sum >>> 12)) + word) >>> 0;
  return sum;
}
