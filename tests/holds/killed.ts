import type { Killed, Moment } from '../../config/year/kills.js';

/** Everything that can die. */
export const ALL_KILLED: readonly Killed[] = [
  'bot',
  'workers',
  'relay',
  'wake',
  'send',
  'fetch',
  'transcribe',
  'redis',
];

/** When things can die; `as-it-fetches` only where somebody sends a picture or a voice note. */
export const MOMENTS_OF_TALK: readonly Moment[] = ['after', 'as-it-says', 'as-it-chases', 'as-it-hands-on'];
export const ALL_MOMENTS: readonly Moment[] = [...MOMENTS_OF_TALK, 'as-it-fetches'];
