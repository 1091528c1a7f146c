import { execFile } from 'node:child_process';
import { readFile, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { promisify } from 'node:util';

/** The programs and files that an acoustic model is fitted to a voice with, by their paths. */
export type VoiceFiles = {
  /** sphinx_fe */
  readonly features: string;
  /** sphinxtrain's bw */
  readonly counter: string;
  /** sphinxtrain's mllr_solve */
  readonly solver: string;
  readonly acoustics: string;
  /** The phones' definitions as text. */
  readonly phones: string;
  readonly weights: string;
  readonly fillers: string;
};

const LIMIT_MS = 20_000;
/** How the acoustic model's features are made: its feat.params, which bw doesn't read. */
const STREAMS = ['-feat', '1s_c_d_dd', '-svspec', '0-12/13-25/26-38', '-cmn', 'batch', '-agc', 'none'];

const run = promisify(execFile);

/**
 * A transform of the acoustic model's means that brings them nearest to the voice and the room of these samples (maximum likelihood
 * linear regression: Leggetter and Woodland 1995), the words first heard taken for what was said. Gives its file; null where there is too
 * little to reckon it from, or the words can't be laid along the sound.
 */
export async function fitVoice(
  files: VoiceFiles,
  samples: string,
  words: readonly string[],
  dictionary: string,
): Promise<string | null> {
  const folder = dirname(samples);
  const name = basename(samples, '.raw');
  const [list, texts, out] = [join(folder, 'fit.list'), join(folder, 'fit.texts'), join(folder, 'fit.mllr')];
  await writeFile(list, `${name}\n`);
  await writeFile(texts, `<s> ${words.join(' ')} </s> (${name})\n`);
  const model = (file: string): string => join(files.acoustics, file);
  const gaussians = ['-meanfn', model('means'), '-varfn', model('variances')];
  const counts = ['-accumdir', folder];
  const sound = ['-c', list, '-di', folder, '-do', folder, '-ei', 'raw', '-eo', 'mfc', '-raw', 'yes'];
  const known = ['-moddeffn', files.phones, '-mixwfn', files.weights, ...gaussians, '-ts2cbfn', '.ptm.'];
  const states = ['-tmatfn', model('transition_matrices'), '-dictfn', dictionary, '-fdictfn', files.fillers];
  const said = ['-ctlfn', list, '-lsnfn', texts, '-cepdir', folder, '-cepext', 'mfc'];
  try {
    await listened(files.features, ['-argfile', model('feat.params'), ...sound, '-remove_noise', 'no']);
    await listened(files.counter, [...known, ...states, ...STREAMS, ...said, ...counts, '-timing', 'no']);
    await listened(files.solver, [...gaussians, ...counts, '-outmllrfn', out]);
  } catch (error) {
    if (error instanceof Error && 'code' in error && error.code === 'ENOENT') throw error;
    return null;
  }
  return isTransform(await readFile(out, 'utf8').catch(() => '')) ? out : null;
}

const listened = (program: string, args: readonly string[]): Promise<unknown> =>
  run(program, args, { timeout: LIMIT_MS, maxBuffer: 8 * 1024 * 1024 });

/** Where it can't be solved, every figure is one or nought; one that is no number would spoil all that is heard after. */
function isTransform(text: string): boolean {
  const figures = (text.match(/\S*\.\S*|\S*[a-z]\S*/gi) ?? []).map(Number);
  return figures.every(Number.isFinite) && figures.some((figure) => figure !== 0 && figure !== 1);
}
