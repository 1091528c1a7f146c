import { describe, expect, it } from 'vitest';
import { lexicon } from '../../src/trade/lexicon/load.js';
import { reference } from '../support/reference.js';

// Sources and licences of both files: tests/references/README.md.
const vocabulary = reference<{ parts: { name: string }[] }>('parts-vocabulary.json').parts;
const inspection = reference<{ items: { item: string; defects: number }[] }>(
  'roadworthiness-items.json',
).items;

/** Names of the open list that are no part of a motorcycle of the 1930s to 1970s, by why they are left out. */
const NO_MOTORCYCLE_PART: Record<string, readonly string[]> = {
  'steering of cars': [
    'steering arm',
    'drag link',
    'track rod end',
    'track rod',
    'king pin',
    'kingpin',
    'swivel joint',
    'swivel pin',
  ],
  'suspension of cars': ['radius arm', 'torsion bar', 'wishbone', 'anti-roll bar', 'macpherson strut'],
  'brakes and wheels of cars': ['load sensing valve', 'wheel bolt', 'wheel stud'],
  'cooling and engines of cars': [
    'engine block',
    'timing belt',
    'crank handle',
    'water pump',
    'thermostat',
    'fan',
    'fan belt',
    'cooling system',
    'turbocharger',
  ],
  'transmission of cars': [
    'clutch pedal',
    'cone clutch',
    'reverse gear',
    'differential',
    'halfshaft',
    'planet gear',
    'sun gear',
    'synchromesh',
    'overdrive',
  ],
  'later than the 1970s': ['fuel injector', 'injector', 'catalytic converter', 'sensor'],
  'stationary plant': ['piston rod', 'compressor', 'drain valve', 'idler pulley', 'dash-pot'],
  'a maker’s name': ['klaxon'],
  bicycles: ['bicycle chain'],
};

/** Items of the inspection that are a test, an adjustment or a heading, not a part. */
const NO_PART =
  /test$|alignment$|aim$|movement$|rotation$|performance$|^An item$|^Non-component|^Hydraulic brake control$|^All /;

const PLACE = /^(front|rear|inlet|intake|exhaust) /;

/** A name is known as it stands, in the singular, or as a place and a part ('front wheel bearings'). */
const isKnown = (name: string): boolean => {
  const plain = name.toLowerCase().replace(/\(s\)/, '').replace(/\s+/g, ' ').trim();
  return [plain, plain.replace(PLACE, '')]
    .flatMap((form) => [form, form.replace(/s$/, '')])
    .some((form) => lexicon.byName(form) !== undefined);
};

describe('the lexicon against names it was not made from', () => {
  const leftOut = new Set(Object.values(NO_MOTORCYCLE_PART).flat());

  it('should know at least 95 % of the motorcycle names of the open vocabulary', () => {
    const relevant = vocabulary.map((part) => part.name).filter((name) => !leftOut.has(name));
    const unknown = relevant.filter((name) => !isKnown(name));
    expect(relevant.length).toBeGreaterThan(450);
    expect(1 - unknown.length / relevant.length, `unknown: ${unknown.join(', ')}`).toBeGreaterThanOrEqual(
      0.95,
    );
  });

  it('should leave out nothing that the lexicon knows after all, and nothing that is not on the list', () => {
    const names = new Set(vocabulary.map((part) => part.name));
    expect([...leftOut].filter((name) => isKnown(name) || !names.has(name))).toEqual([]);
  });

  it('should know the parts behind at least 95 % of the defects that the inspection words', () => {
    const parts = inspection.filter(({ item }) => !NO_PART.test(item));
    const defects = (of: typeof parts): number => of.reduce((sum, { defects }) => sum + defects, 0);
    const unknown = parts.filter(({ item }) => !isKnown(item));
    expect(parts.length).toBeGreaterThan(90);
    expect(
      1 - defects(unknown) / defects(parts),
      `unknown: ${unknown.map(({ item }) => item).join(', ')}`,
    ).toBeGreaterThanOrEqual(0.95);
  });
});
