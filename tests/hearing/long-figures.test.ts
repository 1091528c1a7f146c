import { describe, expect, it } from 'vitest';
import { readMessage } from '../../src/hearing/read-message.js';
import { readingSchema } from '../../src/hearing/reading.js';

const NINES = '9'.repeat(400);

describe('a key struck too long', () => {
  it.each([
    `rim cracked £${NINES}`,
    `footrest bent ${NINES} mm`,
    `took the seat off, bag ${NINES}`,
    `${NINES} spokes back`,
    `${NINES}: cracked`,
    `fork tube ${NINES}/${NINES} inch`,
    `rim ${'thousand '.repeat(200)} quid`,
    `rim ${'million '.repeat(60)} pounds`,
  ])('gives a reading that can be kept: %.24s…', (text) => {
    for (const spoken of [false, true]) {
      const reading = readMessage(text, { today: '2026-03-02', spoken });
      expect(readingSchema.safeParse(JSON.parse(JSON.stringify(reading))).error).toBeUndefined();
    }
  });
});
