import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { doubtsOf } from '../../src/hearing/sureness/doubts.js';
import type { Answer } from '../../src/wording/answer.js';
import { textOf } from '../../src/wording/answer.js';
import { openFloor, type Floor } from './floor.js';

let floor: Floor;

beforeAll(async () => {
  floor = await openFloor();
  await floor.mechanic('new job: Ketterby 500 single, owner Mrs Dale');
});

afterAll(() => floor.stop());

/** A voice note's words, the last in brackets not clearly heard. */
async function spoken(said: string): Promise<Answer> {
  const words = said.split(' ').map((word) => ({
    word: word.replace(/[[\]]/g, ''),
    confidence: word.startsWith('[') ? 0.2 : 0.95,
  }));
  const { text, doubts } = doubtsOf(words, 0.5);
  return floor.mechanic(text, { source: 'spoken', doubts });
}

const labels = ({ buttons }: Answer): string[] => buttons.flat().map(({ label }) => label);

describe('a word that the recogniser was not sure of', () => {
  it('is only said again where little hangs on it', async () => {
    const answer = await spoken('tail lamp [dented]');
    expect(textOf(answer)).toMatch(/I took it as: dented\./);
    expect(textOf(answer)).not.toMatch(/\?/);
    expect(labels(answer)).toEqual(['Undo', 'Change']);
  });

  it('is asked about where it names the thing', async () => {
    await spoken('tail lamp dented');
    const answer = await spoken('head [lamp] rusty');
    expect(textOf(answer)).toMatch(/I took that to be the headlamp: right\?/);
    expect(labels(answer)).toContain('Rear lamp');
  });

  it('makes no ado where all was clear', async () => {
    const answer = await spoken('front fork stanchion pitted');
    expect(textOf(answer)).not.toMatch(/took|\?/);
  });
});
