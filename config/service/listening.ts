import { join } from 'node:path';
import type { Logger } from 'pino';
import type { Desk } from '../../src/desk/desk.js';
import { byPocketsphinx } from '../../workers/pocketsphinx.js';
import type { Recognise } from '../../workers/recogniser.js';
import { recogniserFor } from '../../workers/recogniser.js';
import type { Settings } from '../settings.js';
import { findSpeech } from '../setup/find-speech.mjs';
import { keepShopModel, makeAside } from '../speech/shop-model.js';

/** How soon a change of the shop's words is noticed: several at once make one new model. */
const LOOK_EVERY_MS = 5_000;

export type Listening = { recognise: Recognise | null; stop: () => void };

/** Whether voice notes can be listened to: by what the settings name, else by what `npm run speech` fetched. */
export const canListen = ({ speech }: Settings): boolean => speech !== null || findSpeech() !== null;

/** The recogniser of this shop, with a model of its speech that follows the shop's words while `listens`. */
export function startListening(
  { speech, dataDir, shopKey }: Settings,
  desk: Desk,
  log: Logger,
  listens: boolean,
): Listening {
  if (speech !== null) return { recognise: recogniserFor(speech), stop: () => undefined };
  const tools = findSpeech();
  if (tools === null || !listens) return { recognise: null, stop: () => undefined };
  const model = keepShopModel({
    words: desk.shopWords,
    make: makeAside(tools.compiler),
    folder: join(dataDir, 'speech', shopKey),
    log,
  });
  const look = (): void => {
    model
      .refresh()
      .catch((error: unknown) => log.warn({ err: error }, 'the model of speech could not be renewed'));
  };
  look();
  const timer = setInterval(look, LOOK_EVERY_MS);
  return { recognise: byPocketsphinx(tools, model.files), stop: () => clearInterval(timer) };
}
