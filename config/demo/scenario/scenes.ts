import { away } from './away.js';
import { building } from './building.js';
import { comingIn } from './coming-in.js';
import { deciding } from './deciding.js';
import { lateFind } from './late-find.js';
import type { Scene } from './scene.js';
import { stripping } from './stripping.js';

/** Four invented months of one machine, with another on the bench beside it. */
export const SCENES: readonly Scene[] = [
  ...comingIn,
  ...stripping,
  ...deciding,
  ...away,
  ...lateFind,
  ...building,
];

/** As far as everybody is in the chat. */
export const SCENES_TO_INVITE: readonly Scene[] = comingIn;
