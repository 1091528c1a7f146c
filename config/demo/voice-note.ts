import { execFile } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import { projectRoot } from '../setup/project.mjs';
import { findSpeech, findVoice } from '../setup/find-speech.mjs';
import { say } from '../setup/say.mjs';

const run = promisify(execFile);
const SAID = 'the petrol tank is rusty';
const RECORDED = join(projectRoot, 'config/demo/scenario/voice-note.oga');

/** A spoken note, OGG/Opus: made here where `npm run speech` has fetched what it takes; else one that nobody listens to. */
export async function voiceNote(): Promise<Buffer> {
  const [speaker, tools] = [findVoice('flite'), findSpeech()];
  if (speaker === null || tools === null) {
    say('The voice note is only kept, not listened to: npm run speech fetches what it takes.');
    return readFile(RECORDED);
  }
  const folder = await mkdtemp(join(tmpdir(), 'benchhand-demo-note-'));
  try {
    const [wav, note] = [join(folder, 'note.wav'), join(folder, 'note.oga')];
    await run(speaker, ['-voice', 'rms', '-t', SAID, '-o', wav]);
    await run(tools.decoder, ['-nostdin', '-v', 'error', '-i', wav, '-c:a', 'libopus', note]);
    return await readFile(note);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}
