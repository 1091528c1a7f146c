import { execFile } from 'node:child_process';
import { readFile } from 'node:fs/promises';
import { promisify } from 'node:util';
import { z } from 'zod';
import { heardOf, plainlyHeard, type Heard } from '../src/desk/heard.js';

/** Turns a sound file into words; null where nothing could be made out. Throws where the recogniser itself fails. */
export type Recognise = (path: string, mime: string) => Promise<Heard | null>;

export type SpeechSetting = { readonly command: string } | { readonly url: string };

const spokenAnswer = z.object({
  text: z.string(),
  /** Its words again, each with how likely it is to be right. */
  words: z.array(z.object({ word: z.string().min(1), confidence: z.number().min(0).max(1) })).optional(),
});

const TIME_LIMIT_MS = 60_000;
const WORDS_AT_MOST_BYTES = 64 * 1024;
const run = promisify(execFile);

/** The recogniser that the settings name: a command line given the file's path, or an endpoint given the file. */
export function recogniserFor(setting: SpeechSetting): Recognise {
  return 'command' in setting ? byCommand(setting.command) : byEndpoint(setting.url);
}

/** The command's words are split at spaces; it prints what it heard. No shell is involved. */
function byCommand(command: string): Recognise {
  const [program = '', ...options] = command.split(/\s+/);
  return async (path) => {
    const { stdout } = await run(program, [...options, path], {
      timeout: TIME_LIMIT_MS,
      maxBuffer: WORDS_AT_MOST_BYTES,
    });
    return plainlyHeard(stdout);
  };
}

/**
 * The file is posted as it is; the answer is plain text, or JSON with the words under `text` and, where the endpoint knows how
 * sure it is, under `words`.
 */
function byEndpoint(url: string): Recognise {
  return async (path, mime) => {
    const response = await fetch(url, {
      method: 'POST',
      headers: { 'content-type': mime },
      body: await readFile(path),
      signal: AbortSignal.timeout(TIME_LIMIT_MS),
    });
    if (!response.ok) throw new Error(`the recogniser answered ${response.status}`);
    const body = await response.text();
    const isJson = response.headers.get('content-type')?.includes('json') === true;
    if (!isJson) return plainlyHeard(body);
    const { text, words } = spokenAnswer.parse(JSON.parse(body));
    return words === undefined ? plainlyHeard(text) : heardOf(words);
  };
}
