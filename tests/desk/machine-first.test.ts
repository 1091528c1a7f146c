import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { machineFirst, machineWithin } from '../../src/hearing/instructions/machine-first.js';
import { textOf } from '../../src/wording/answer.js';
import type { DeskBench } from '../support/desk.js';
import { openDeskBench } from '../support/desk.js';

describe('a machine said first', () => {
  const machines = ['Thistle', 'Old Bramble', 'Young Bramble'];
  it.each([
    ['on the Thistle: handed over', 'Thistle', 'handed over'],
    ['thistle, 12 done', 'Thistle', '12 done'],
    ['For the young bramble: steps 1 to 3 done', 'Young Bramble', 'steps 1 to 3 done'],
  ])('is known in “%s”', (text, machine, rest) => {
    expect(machineFirst(text, machines)).toEqual({ machine, rest });
  });

  it.each(['Bramble: handed over', 'on the bench: 12 done', 'old, and rusty', '12 done', 'the Thistle'])(
    'is none in “%s”',
    (text) => expect(machineFirst(text, machines)).toBeNull(),
  );
});

describe('a machine said within', () => {
  const machines = ['Thistle 500', 'Old Bramble', 'Young Bramble'];
  it.each([
    ['handed the Thistle over', 'Thistle 500', ['handed it over', 'handed over']],
    ['that’s the old bramble stripped', 'Old Bramble', ['that’s it stripped', 'that’s stripped']],
    [
      'want it built by June on the Thistle',
      'Thistle 500',
      ['want it built by June on it', 'want it built by June'],
    ],
  ])('is known in “%s”', (text, machine, without) => {
    expect(machineWithin(text, machines)).toEqual({ machine, without });
  });

  it.each(['handed the Bramble over', 'the old bench', 'Thistle and Young Bramble stripped', ''])(
    'is none in “%s”',
    (text) => expect(machineWithin(text, machines)).toBeNull(),
  );
});

describe('an instruction that begins with its machine', () => {
  let bench: DeskBench;
  beforeAll(async () => {
    bench = await openDeskBench();
    await bench.say('new job: Thistle 500 single, already stripped and inspected');
    await bench.say('carburettor dirty, clean it');
    await bench.say('new job: Hawthorn 350 single, already stripped and inspected');
    await bench.say('carburettor dirty, clean it');
  });
  afterAll(() => bench.stop());

  it('is of that machine, not of the one on the bench', async () => {
    expect(textOf(await bench.say('on the Thistle: carburettor done'))).toMatch(/^Thistle\n.*cleaned/);
    expect(textOf(await bench.say('carburettor done'))).toMatch(/^Hawthorn\n.*cleaned/);
  });

  it('is of the machine it names anywhere', async () => {
    await bench.say('working on the Hawthorn');
    expect(textOf(await bench.say('that’s the Thistle handed over'))).toMatch(/^Thistle\n/);
    expect(textOf(await bench.say('want the Thistle reassembled by 12 June'))).toMatch(/^Thistle\n/);
  });

  it('puts what was said last on the machine that was meant', async () => {
    await bench.say('fork spring broken, new one');
    const moved = textOf(await bench.say('no sorry that’s the Thistle'));
    expect(moved).toMatch(/^Thistle\n\d+ · fork spring: broken\. Replace/);
    expect(textOf(await bench.say('list'))).not.toMatch(/fork spring/);
  });

  it('moves what was said by its number, and only once', async () => {
    await bench.say('working on the Hawthorn');
    await bench.say('kickstart spring broken');
    const number = /(\d+) · kickstart spring/.exec(textOf(await bench.say('list')))?.[1];
    await bench.say(`${number} is cracked`);
    expect(textOf(await bench.say('no, that’s the Thistle'))).toMatch(
      /^Thistle\n\d+ · kickstart spring: cracked/,
    );
    expect(textOf(await bench.say('no, that’s the Thistle'))).not.toMatch(/kickstart/);
  });

  it.each(['oh it was the big end knocking', 'sorry it’s the tank that leaks', 'oh that’s the rims back'])(
    'takes nothing back for news: “%s”',
    async (text) => {
      await bench.say('on the Thistle: gear lever bent, straighten it');
      await bench.say(text);
      expect(textOf(await bench.say('on the Thistle: list'))).toMatch(/gear lever: bent/);
    },
  );

  it('moves of several machines’ news only what was put down last', async () => {
    await bench.say('on the Hawthorn: horn broken, new one. On the Thistle: saddle torn, new one');
    const moved = textOf(await bench.say('no sorry that’s the Hawthorn'));
    expect(moved).toMatch(/^Hawthorn\n\d+ · saddle/);
    expect(moved).not.toMatch(/horn:/);
  });

  it.each(['put the Thistle back on', 'moving on to the Thistle', 'Thistle’s back on the ramp now'])(
    'goes on the bench by “%s”',
    async (text) => {
      await bench.say('working on the Hawthorn');
      expect(textOf(await bench.say(text))).toMatch(/^Thistle is on the bench/);
    },
  );

  it('is asked about without the last thing of another', async () => {
    await bench.say('working on the Hawthorn');
    await bench.say('tappet pitted, rocker worn, pushrod bent, cylinder head cracked, oil pump worn');
    const said = textOf(await bench.say('everything on the Thistle that’s with somebody'));
    expect(said).toMatch(/^Thistle\n/);
    expect(said).not.toMatch(/no number/);
  });

  it('needs no naming where a bag or box is asked about', async () => {
    await bench.say('on the Thistle: took the kickstart off, it’s in bag 22');
    expect(textOf(await bench.say('where’s bag 22'))).toMatch(/^Bag 22, Thistle: /);
  });

  it('comes in with every gate told of it', async () => {
    const said = textOf(
      await bench.say('new job: Tansyfield 500 single, already stripped, inspected, parts ordered'),
    );
    expect(said).toMatch(/next to pass: sublet out/);
  });

  it.each(['owner agreed to all of it', 'on the Hawthorn: owner agreed to all of it'])(
    'is none in “%s”: it enters nobody',
    async (text) => expect(textOf(await bench.say(text))).not.toMatch(/down as an owner/),
  );

  it('tells steps and checks as done, and hands over', async () => {
    expect(textOf(await bench.say('on the Thistle: steps 1 to 3 done'))).toMatch(
      /^Thistle\n(?!Kept as a note)/,
    );
    expect(textOf(await bench.say('Thistle: handed over'))).toMatch(/^Thistle\n(?!Kept as a note)/);
  });
});
