import { isDeepStrictEqual } from 'node:util';
import type { Known, Listener } from '../../hearing/listener.js';
import { readInstruction } from '../../hearing/instructions/read-instruction.js';
import { readMessage } from '../../hearing/read-message.js';
import type { Reading } from '../../hearing/reading.js';

/** Who listens to a message at the bench, with all that is known there. */
export type BenchListener = Listener & { known: Known };

/** A message as it is read if nothing has changed since the last one from its chat was answered. */
export type Ahead = { text: string; listener: BenchListener; reading: Reading };

/** Reads a message while the record is asked what has changed. Null for an instruction: that is quickly read. */
export function readAhead(text: string, listener: BenchListener): Ahead | null {
  return readInstruction(text, listener) ? null : { text, listener, reading: readMessage(text, listener) };
}

/** The reading of a message: the one made ahead, where it would come out the same, else made now. */
export function readingOf(text: string, listener: BenchListener, ahead: Ahead | null): Reading {
  return ahead?.text === text && isDeepStrictEqual(ahead.listener, listener)
    ? ahead.reading
    : readMessage(text, listener);
}
