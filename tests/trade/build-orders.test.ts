import { describe, expect, it } from 'vitest';
import {
  BuildOrderError,
  buildOrders,
  readBuildOrder,
  TEMPLATES,
} from '../../src/trade/build-orders/load.js';
import { stepFor } from '../../src/trade/build-orders/step-for.js';
import { lexicon } from '../../src/trade/lexicon/load.js';
import { GROUPS } from '../../src/trade/lexicon/schema.js';
import type { Place } from '../../src/trade/terms.js';
import { reference } from '../support/reference.js';

describe.each(TEMPLATES)('the build order %s', (template) => {
  const order = buildOrders[template];
  const place = (part: string, places: Place[] = []): string | null =>
    stepFor(order, { name: part, group: lexicon.byName(part)?.group ?? null, place: places });
  const waitsFor = (step: string, other: string): boolean => {
    const after = order.steps.find(({ id }) => id === step)?.after ?? [];
    return after.includes(other) || after.some((id) => waitsFor(id, other));
  };
  const comesBefore = (first: string, second: string): boolean => {
    const [one, two] = [place(first, ['rear']), place(second, ['rear'])];
    return one !== null && two !== null && waitsFor(two, one);
  };

  it('has 45 to 60 steps with hours that add up to a few weeks of bench time (common practice, no source)', () => {
    expect(order.steps.length).toBeGreaterThanOrEqual(45);
    expect(order.steps.length).toBeLessThanOrEqual(60);
    const hours = order.steps.reduce((sum, step) => sum + step.hours, 0);
    expect(hours).toBeGreaterThan(70);
    expect(hours).toBeLessThan(160);
  });

  it('names canonical parts only', () => {
    const known = new Set(lexicon.parts.map((part) => part.name));
    const strangers = order.steps.flatMap((step) => step.parts.filter((part) => !known.has(part)));
    expect(strangers).toEqual([]);
  });

  it('has a step for every part of the lexicon, and for what is left over of every group', () => {
    expect(lexicon.parts.filter((part) => place(part.name) === null).map((part) => part.name)).toEqual([]);
    const spare = (group: string): string | null => stepFor(order, { name: null, group, place: [] });
    expect(GROUPS.filter((group) => spare(group) === null)).toEqual([]);
  });

  it('has a step for every part in open vocabularies that the lexicon knows (sources in the file)', () => {
    const { parts } = reference<{ parts: { name: string }[] }>('parts-vocabulary.json');
    const known = parts.flatMap(({ name }) => lexicon.byName(name)?.name ?? []);
    expect(known.length).toBeGreaterThan(300);
    expect(known.filter((name) => place(name) === null)).toEqual([]);
  });

  it('tells front from rear', () => {
    for (const part of ['brake shoe', 'wheel bearing', 'wheel rim', 'tyre', 'mudguard', 'wheel spindle']) {
      const [front, rear] = [place(part, ['front']), place(part, ['rear'])];
      expect(front, part).toMatch(/front/);
      expect(rear, part).toMatch(/rear/);
    }
  });

  it.each([
    ['frame', 'steering head cup'],
    ['steering head cup', 'fork yoke'],
    ['fork stanchion', 'fork yoke'],
    ['big end bearing', 'crankcase bolt'],
    ['main bearing', 'piston'],
    ['valve guide', 'rocker box'],
    ['piston', 'cylinder head gasket'],
    ['timing gear', 'timing cover'],
    ['gear cluster', 'gearbox outer cover'],
    ['gearbox sprocket', 'primary chain'],
    ['engine', 'primary chain'],
    ['primary chain', 'primary chaincase gasket'],
    ['clutch plate', 'primary chaincase gasket'],
    ['spoke', 'tyre'],
    ['brake shoe', 'wheel spindle'],
    ['tyre', 'wheel spindle'],
    ['wheel spindle', 'chain'],
    ['mudguard', 'rear lamp'],
    ['wiring loom', 'battery'],
    ['carburettor', 'petrol tank'],
    ['petrol tank', 'dual seat'],
  ])('fits the %s before the %s (common practice, no source)', (first, second) => {
    expect(comesBefore(first, second)).toBe(true);
    expect(comesBefore(second, first)).toBe(false);
  });

  it('ends in one step that waits for all others', () => {
    const held = new Set(order.steps.flatMap((step) => step.after));
    const last = order.steps.filter((step) => !held.has(step.id)).map((step) => step.id);
    expect(last).toHaveLength(1);
    expect(order.steps.filter(({ id }) => id !== last[0] && !waitsFor(last[0] ?? '', id))).toEqual([]);
  });

  it('lists each step after those it waits for, so that it reads as it is built', () => {
    const seen = new Set<string>();
    const early = order.steps.filter((step) => {
      seen.add(step.id);
      return step.after.some((id) => !seen.has(id));
    });
    expect(early.map((step) => step.id)).toEqual([]);
  });

  it('says what to watch where it matters: the gearbox in neutral, the primary drive in line and rightly slack', () => {
    const watched = order.steps.map((step) => step.watch ?? '');
    expect(watched.some((watch) => /gearbox in neutral as it goes together/i.test(watch))).toBe(true);
    expect(watched.some((watch) => /primary drive in line and rightly slack/i.test(watch))).toBe(true);
  });
});

describe('stepFor', () => {
  const steps = [
    { id: 'front', parts: ['tyre'], groups: ['wheels'], place: 'front' as const },
    { id: 'rear', parts: ['tyre'], groups: ['wheels'], place: 'rear' as const },
    { id: 'any', parts: ['spare wheel'], groups: ['tools'] },
    { id: 'later', parts: ['spare wheel'], groups: [], place: 'rear' as const },
  ];
  it('takes the step that names the part over the one of its group', () => {
    expect(stepFor({ steps }, { name: 'spare wheel', group: 'wheels', place: [] })).toBe('any');
  });
  it('takes the step of the place, else one for no place, else the first', () => {
    expect(stepFor({ steps }, { name: 'tyre', group: 'wheels', place: ['left', 'rear'] })).toBe('rear');
    expect(stepFor({ steps }, { name: 'spare wheel', group: null, place: ['rear'] })).toBe('later');
    expect(stepFor({ steps }, { name: 'spare wheel', group: null, place: ['front'] })).toBe('any');
    expect(stepFor({ steps }, { name: 'tyre', group: 'wheels', place: [] })).toBe('front');
    expect(stepFor({ steps }, { name: 'spoke', group: 'wheels', place: ['rear'] })).toBe('rear');
  });
  it('gives null where no step wants the part', () => {
    expect(stepFor({ steps }, { name: null, group: null, place: [] })).toBeNull();
    expect(stepFor({ steps }, { name: 'horn', group: 'wiring', place: ['front'] })).toBeNull();
  });
});

describe('reading a build order', () => {
  const step = (id: string, more = ''): string =>
    `  - { id: ${id}, name: Fit, hours: 1, stage: frame${more} }`;
  const read = (...steps: string[]) =>
    readBuildOrder('try.yaml', ['id: try', 'name: Try', 'steps:', ...steps].join('\n'));
  const problemsOf = (...steps: string[]): readonly string[] => {
    try {
      read(...steps);
      return [];
    } catch (error) {
      if (error instanceof BuildOrderError) return error.problems;
      throw error;
    }
  };

  it('takes a sound one', () => {
    const order = read(step('a'), step('b', ', after: [a], waits: [{ days: 2, for: paint, after: a }]'));
    expect(order.steps.map(({ id, after }) => ({ id, after }))).toEqual([
      { id: 'a', after: [] },
      { id: 'b', after: ['a'] },
    ]);
  });
  it('names a loop with the steps in it, and only those', () => {
    const problems = problemsOf(
      step('x', ', after: [a]'),
      step('a', ', after: [c]'),
      step('b', ', after: [a]'),
      step('c', ', after: [b]'),
      step('y'),
    );
    expect(problems).toEqual(['steps wait for each other in a loop: a after c after b after a']);
  });
  it('names a step that waits for itself', () => {
    expect(problemsOf(step('a', ', after: [a]'))).toEqual(['steps wait for each other in a loop: a after a']);
  });
  it('names steps that are unknown or there twice', () => {
    expect(problemsOf(step('a'), step('a'), step('b', ', after: [c]'))).toEqual([
      "step 'a': the id stands there twice",
      "step 'b': after: no step is called 'c'",
    ]);
  });
  it('names a part that two steps claim for one place', () => {
    expect(
      problemsOf(step('a', ', parts: [tyre], place: front'), step('b', ', parts: [tyre], place: rear')),
    ).toEqual([]);
    expect(problemsOf(step('a', ', parts: [tyre]'), step('b', ', parts: [tyre]'))).toEqual([
      "step 'b': parts: 'tyre' already belongs to 'a'",
    ]);
  });
  it('names a wait that runs from nothing', () => {
    expect(problemsOf(step('a', ', waits: [{ days: 2, for: paint }]'))).toEqual([
      "step 'a': waits, but comes after no step",
    ]);
    expect(
      problemsOf(step('a'), step('b'), step('c', ', after: [a], waits: [{ days: 2, for: paint, after: b }]')),
    ).toEqual(["step 'c': waits: 'b' is not a step that it comes after"]);
  });
  it('names where the shape is wrong', () => {
    expect(problemsOf(step('a', ', groups: [widgets]'))[0]).toMatch(/^steps\.0\.groups\.0: /);
    expect(problemsOf(step('a').replace('hours: 1', 'hours: -1'))[0]).toMatch(/^steps\.0\.hours: /);
    expect(problemsOf('  - [')[0]).toMatch(/^is not YAML/);
  });
});
