import type { Killed } from '../../config/year/kills.js';

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
