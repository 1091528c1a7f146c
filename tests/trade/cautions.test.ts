import { describe, expect, it } from 'vitest';
import { cautionById, cautions, cautionsFor, DEFER, type Work } from '../../src/trade/cautions/load.js';
import { lexicon } from '../../src/trade/lexicon/load.js';
import { buildOrders, TEMPLATES } from '../../src/trade/build-orders/load.js';
import { checksOf, roadTestOf } from '../../src/trade/setting-up/load.js';
import { dustHeatAndPlating } from './caution-occasions/dust-heat-plating.js';
import { liquidsWheelsAndRunning } from './caution-occasions/liquids-wheels-running.js';

const occasions = { ...dustHeatAndPlating, ...liquidsWheelsAndRunning };

const work = (part: string | null, more: Partial<Work> = {}): Work => ({
  part,
  group: part === null ? null : (lexicon.byName(part)?.group ?? null),
  processes: [],
  remedy: null,
  conditions: [],
  act: 'finding',
  ...more,
});
const idsFor = (part: string | null, more: Partial<Work> = {}): string[] =>
  cautionsFor(work(part, more)).map((caution) => caution.id);

describe('the cautions', () => {
  it('each have a source, and a text that fits a chat line', () => {
    expect(cautions.length).toBeGreaterThan(20);
    for (const caution of cautions) {
      expect(caution.source.reference, caution.id).not.toBe('');
      expect(caution.text, caution.id).not.toContain('\n');
      expect(caution.text.endsWith('.'), caution.id).toBe(true);
    }
    expect(DEFER.toLowerCase()).toContain('local rules and licensed practice');
  });

  it('name parts of the lexicon only, by their canonical names', () => {
    const known = new Set(lexicon.parts.map((part) => part.name));
    const named = cautions.flatMap((caution) => caution.when.flatMap((occasion) => occasion.parts ?? []));
    expect([...new Set(named)].filter((part) => !known.has(part))).toEqual([]);
  });

  it('are tried on parts of the lexicon only', () => {
    const tried = Object.values(occasions).flatMap(({ given, not }) =>
      [...given, ...not].map(([part]) => part),
    );
    const strangers = tried.filter((part) => part !== null && lexicon.byName(part)?.name !== part);
    expect(strangers).toEqual([]);
  });

  it('are all tried below', () => {
    expect(Object.keys(occasions).sort()).toEqual(cautions.map((caution) => caution.id).sort());
  });

  it('are found by the checks that point to them', () => {
    const pointed = TEMPLATES.flatMap((template) => [...checksOf(template), ...roadTestOf(template)]).flatMap(
      (check) => check.caution ?? [],
    );
    expect(pointed.length).toBeGreaterThan(4);
    expect(pointed.filter((id) => cautionById(id) === null)).toEqual([]);
  });
});

describe.each(Object.entries(occasions))('the caution %s', (id, { given, not }) => {
  it('is tried on two things at least, and on three that it does not concern', () => {
    expect(given.length).toBeGreaterThanOrEqual(2);
    expect(not.length).toBeGreaterThanOrEqual(3);
  });
  it.each(given)('is given: %s %o', (part, more) => expect(idsFor(part, more)).toContain(id));
  it.each(not)('is not given: %s %o', (part, more) => expect(idsFor(part, more)).not.toContain(id));
});

describe('what is harmless', () => {
  it('calls for nothing: any part looked at, with nothing decided', () => {
    const warned = lexicon.parts.filter((part) => idsFor(part.name).length > 0).map((part) => part.name);
    expect(warned).toEqual([]);
  });

  it('calls for nothing: any part sent out to be painted', () => {
    const warned = lexicon.parts.flatMap((part) =>
      idsFor(part.name, { remedy: 'send-out', processes: ['paint'] }).map((id) => `${part.name}: ${id}`),
    );
    expect(warned).toEqual([]);
  });

  it('calls for nothing: any part merely ordered, bought in, promised or fitted, save what is heavy, loaded or charged', () => {
    const warned = lexicon.parts.flatMap((part) =>
      (['ordered', 'promised', 'back', 'fitted'] as const).flatMap((act) => idsFor(part.name, { act })),
    );
    expect([...new Set(warned)].sort()).toEqual(['battery-charging', 'lifting', 'springs', 'tyres']);
  });

  it('gets few cautions at once, even at the worst', () => {
    const steps = Object.values(buildOrders).flatMap((order) => order.steps.flatMap((step) => step.parts));
    for (const part of new Set(steps))
      expect(
        idsFor(part, { remedy: 'clean', processes: ['blast'], conditions: ['dirty'] }).length,
        part,
      ).toBeLessThanOrEqual(5);
  });
});
