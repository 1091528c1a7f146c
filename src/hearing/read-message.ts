import type { Listener } from './listener.js';
import type { Reading } from './reading.js';

export type { Known, Listener } from './listener.js';

/** Reads one message from the bench. Pure: the same text and listener give the same reading; never throws. */
export function readMessage(text: string, _listener: Listener): Reading {
  return { text, heard: text, act: 'note', machine: null, items: [], question: null };
}
