import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { day, dayAndYear, measured, money, total } from '../../src/wording/figures.js';
import { clipped, joined, listed, message, sentence } from '../../src/wording/lines.js';
import { commandMenu } from '../../src/wording/menus.js';
import { buttonTooOld } from '../../src/wording/strangers.js';
import { done, forWork, gateName } from '../../src/wording/terms.js';
import { plural, storedIn, thingName } from '../../src/wording/things.js';
import { MECHANIC_COMMANDS } from '../../bot/mechanics.js';
import { OWNER_COMMANDS } from '../../bot/owners.js';
import { SUPPLIER_COMMANDS } from '../../bot/suppliers.js';
import { RULES } from '../../src/shop/rules.js';
import { DEFAULT_POLICY } from '../../src/shop/policy.js';
import { rulesText } from '../../src/wording/rules.js';
import { linesOf, speakerOn, CHAT_TAKES } from './people.js';
import { textOf } from '../../src/wording/answer.js';

const pounds = { amount: 25, currency: 'GBP', about: true, each: true, vat: 'plus' } as const;

describe('figures', () => {
  it('sums in words', () => {
    expect(money(pounds)).toBe('about £25 each plus VAT');
    expect(money({ ...pounds, amount: 25.5, about: false, each: false, vat: null })).toBe('£25.50');
    expect(
      total(
        [
          { amount: 80, currency: 'GBP' },
          { amount: 40, currency: 'GBP' },
          { amount: 30, currency: 'EUR' },
        ],
        'GBP',
      ),
    ).toBe('£120 and €30');
  });

  // The weekday is checked against the machine's own calendar (ECMA-262, Date), which the code under test does not use.
  it('dates with the right weekday, and the year only where it is another', () => {
    const anyDay = fc.integer({ min: 0, max: 20_000 }).map((days) => new Date(days * 86_400_000));
    fc.assert(
      fc.property(anyDay, (date) => {
        const iso = date.toISOString().slice(0, 10);
        const text = day(iso, { today: '2026-06-01' });
        const weekday = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'][date.getUTCDay()] ?? '';
        expect(text.startsWith(`${weekday} ${date.getUTCDate()} `)).toBe(true);
        expect(/\d{4}$/.test(text)).toBe(!iso.startsWith('2026'));
        expect(dayAndYear(iso).endsWith(iso.slice(0, 4))).toBe(true);
      }),
    );
  });

  it('values of one kind together, with their unit once', () => {
    const bore = { quantity: 'bore', unit: 'mm' } as const;
    expect(
      measured([
        { ...bore, value: 79.52 },
        { ...bore, value: 79.55 },
      ]),
    ).toEqual(['bore 79.52 and 79.55 mm']);
    expect(measured([{ quantity: 'torque', value: 60, unit: 'lbf.ft' }])).toEqual(['torque 60 lbf ft']);
    expect(measured([{ quantity: 'other', value: 2, unit: 'thou' }])).toEqual(['2 thou']);
  });
});

describe('things', () => {
  const speaker = speakerOn();
  it.each([
    [{ part: 'fork stanchion', place: ['front'], count: 2 }, 'front fork stanchions'],
    [{ part: 'footrest', place: ['left', 'right'], count: 2 }, 'left and right footrests'],
    [{ part: 'spoke', place: [], count: 40 }, '40 spokes'],
    [{ part: 'brake shoe', place: ['rear'], count: null }, 'rear brake shoe'],
    [{ part: 'front mudguard', place: ['front'], count: null }, 'front mudguard'],
  ] as const)('%o is called %s', (item, name) => {
    expect(thingName({ ...item, place: [...item.place], called: null }, speaker)).toBe(name);
  });

  it('is called as it was at the bench where the trade has no name for it, or plainly where those words are gone', () => {
    const odd = { part: null, place: [], count: null };
    expect(thingName({ ...odd, called: 't2' }, speaker)).toBe('the funny little bracket behind the horn');
    expect(thingName({ ...odd, called: 'gone' }, speaker)).toBe('something not named');
  });

  it('more than one of a thing', () => {
    expect(['bush', 'battery', 'oilway', 'contact breaker points', 'gearbox', 'magneto'].map(plural)).toEqual(
      ['bushes', 'batteries', 'oilways', 'contact breaker points', 'gearboxes', 'magnetos'],
    );
  });

  it('put in boxes and on shelves', () => {
    expect(['bag 14', 'shelf 3', 'top shelf', 'under the bench'].map(storedIn)).toEqual([
      'in bag 14',
      'on shelf 3',
      'on top shelf',
      'under the bench',
    ]);
    expect(`gone${forWork(['chrome', 'polish'])}, to be ${done(['chrome'])}`).toBe(
      'gone for chroming and polishing, to be chromed',
    );
    expect(gateName('sublet-out')).toBe('sublet out');
  });
});

describe('lines', () => {
  it('lists and sentences', () => {
    expect([
      joined([]),
      joined(['a']),
      joined(['a', 'b']),
      joined(['a', 'b', 'c']),
      joined(['a', 'b', 'c', 'd'], 3),
    ]).toEqual(['', 'a', 'a and b', 'a, b and c', 'a, b and 2 more']);
    expect(listed(['a', 'b', 'c', 'd'], 3)).toEqual(['a', 'b', 'and 2 more']);
    expect([sentence('fitted'), sentence('right?')]).toEqual(['Fitted.', 'Right?']);
    expect(clipped('a long word', 7)).toBe('a long…');
  });

  it('never more than a message holds, and as many lines as fit', () => {
    fc.assert(
      fc.property(fc.array(fc.string({ maxLength: 900 }), { minLength: 1, maxLength: 60 }), (lines) => {
        const text = textOf(message(lines));
        expect(text.length).toBeLessThanOrEqual(CHAT_TAKES);
        if (lines.join('\n').length < 3_000) expect(text).toBe(lines.join('\n'));
      }),
    );
    expect(textOf(message(['x'.repeat(9_000)])).length).toBeLessThanOrEqual(CHAT_TAKES);
  });
});

describe('the small lines', () => {
  it('menus offer every command but the start, and nothing else', () => {
    const offered = (role: 'mechanic' | 'owner' | 'supplier') =>
      commandMenu(role)
        .map(({ command }) => command)
        .sort();
    const known = (commands: object) =>
      Object.keys(commands)
        .filter((command) => command !== 'start')
        .sort();
    expect(offered('mechanic')).toEqual(known(MECHANIC_COMMANDS));
    expect(offered('owner')).toEqual(known(OWNER_COMMANDS));
    expect(offered('supplier')).toEqual(known(SUPPLIER_COMMANDS));
  });

  // 200 characters: Bot API documentation, answerCallbackQuery.
  it('the window over a button holds its line', () => {
    expect(buttonTooOld().length).toBeLessThanOrEqual(200);
  });

  it('the shop’s rules are shown by the numbers they are set by', () => {
    const lines = linesOf(rulesText(DEFAULT_POLICY));
    expect(lines.filter((line) => /^\d+\. /.test(line)).map((line) => Number.parseInt(line))).toEqual(
      RULES.map((_, index) => index + 1),
    );
    expect(lines).toContain('11. An owner’s yes is wanted from: £50');
  });
});
