import { join } from 'node:path';
import type { Logger } from 'pino';
import type { Desk } from '../../src/desk/desk.js';
import { byPocketsphinx } from '../../workers/pocketsphinx.js';
import type { Recognise } from '../../workers/recogniser.js';
import { recogniserFor } from '../../workers/recogniser.js';
import type { Settings } from '../settings.js';
import { findSpeech } from '../setup/find-speech.mjs';
import { keepShopModel, makeAside } from '../speech/shop-model.js';
import { keepVoiceFiles } from '../speech/voice-files.js';

/** Whether voice notes can be listened to: by what the settings name, else by what `npm run speech` fetched. */
export const canListen = ({ speech }: Settings): boolean => speech !== null || findSpeech() !== null;

/**
 * The recogniser of this shop; null where there is none, or nothing `listens` here. Its model of speech is made at the start, and before a
 * note is listened to where the shop's words have changed since.
 */
export function startListening(
  { speech, dataDir, shopKey }: Settings,
  desk: Desk,
  log: Logger,
  listens: boolean,
): Recognise | null {
  if (speech !== null) return recogniserFor(speech);
  const tools = findSpeech();
  if (tools === null || !listens) return null;
  const folder = join(dataDir, 'speech', shopKey);
  const model = keepShopModel({
    words: desk.shopWords,
    make: makeAside(tools.compiler),
    folder,
    log,
  });
  model
    .refresh()
    .catch((error: unknown) => log.warn({ err: error }, 'the model of speech could not be made'));
  const voice = keepVoiceFiles(tools, folder, log);
  void voice();
  return byPocketsphinx(tools, model.files, voice);
}
