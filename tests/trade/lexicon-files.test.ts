import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import fc from 'fast-check';
import { afterEach, describe, expect, it } from 'vitest';
import { stringify } from 'yaml';
import { lexicon, LexiconError, loadLexicon } from '../../src/trade/lexicon/load.js';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true });
});

/** The problems told of a folder with these files (name to text); none when it loads. */
const problemsOf = (files: Record<string, string>): readonly string[] => {
  const folder = mkdtempSync(join(tmpdir(), 'lexicon-'));
  folders.push(folder);
  for (const [name, text] of Object.entries(files)) writeFileSync(join(folder, name), text);
  try {
    loadLexicon(pathToFileURL(`${folder}/`));
    return [];
  } catch (error) {
    if (error instanceof LexiconError) return error.problems;
    throw error;
  }
};

const rocker = { name: 'rocker', group: 'engine top end', sides: [] };
const tappet = { name: 'tappet', group: 'engine top end', sides: ['inlet', 'exhaust'] };
const file = (...entries: object[]): string => stringify(entries);

describe('reading the files of a lexicon', () => {
  it('should read a folder of good files and give empty lists where none stand', () => {
    const folder = mkdtempSync(join(tmpdir(), 'lexicon-'));
    folders.push(folder);
    writeFileSync(join(folder, 'engine.yaml'), file(rocker, tappet));
    writeFileSync(join(folder, 'notes.txt'), 'not a list of parts');
    expect(loadLexicon(pathToFileURL(`${folder}/`)).parts).toEqual([
      { ...rocker, area: 'engine', also: [], misheard: [], within: [], quantities: [] },
      { ...tappet, area: 'engine', also: [], misheard: [], within: [], quantities: [] },
    ]);
  });

  it.each([
    [
      'a group that is not on the list',
      { ...tappet, group: 'engine' },
      /group: must be one of: engine top end/,
    ],
    ['no list of sides', { name: 'tappet', group: 'engine top end' }, /sides: must be a list, empty/],
    ['an unknown side', { ...tappet, sides: ['nearside'] }, /sides: 0: must be one of: front, rear/],
    ['an unknown quantity', { ...tappet, quantities: ['width'] }, /quantities: 0: must be one of: diameter/],
    ['capitals', { ...tappet, also: ['Tappet Foot'] }, /also: 0: must be lower case/],
    ['a mistyped field', { ...tappet, aslo: ['foot'] }, /aslo/],
    ['a pair of one', { ...tappet, count: 1 }, /count/],
  ])('should name file, entry and what is wrong: %s', (_what, entry, problem) => {
    const problems = problemsOf({ 'engine.yaml': file(rocker, entry) });
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(/^engine\.yaml, entry 2 'tappet': /);
    expect(problems[0]).toMatch(problem);
  });

  it('should tell of a file that is no YAML or no list', () => {
    expect(problemsOf({ 'engine.yaml': '- name: [rocker' })[0]).toMatch(/^engine\.yaml: is not YAML/);
    expect(problemsOf({ 'engine.yaml': 'name: rocker' })[0]).toMatch(/^engine\.yaml: must be a list/);
  });

  it.each([
    ['also', { also: ['rocker'] }, "also: 'rocker' already stands as name of engine.yaml, 'rocker'"],
    [
      'misheard',
      { misheard: ['rocker'] },
      "misheard: 'rocker' already stands as name of engine.yaml, 'rocker'",
    ],
    ['plural', { plural: 'rocker' }, "plural: 'rocker' already stands as name of engine.yaml, 'rocker'"],
    ['within', { within: ['cambox'] }, "within: 'cambox' is not the name of another part"],
    ['itself', { within: ['tappet'] }, "within: 'tappet' is not the name of another part"],
    ['twice', { sides: ['inlet', 'inlet'] }, "sides: 'inlet' stands there twice"],
  ])('should find a clash between files: %s', (_what, change, problem) => {
    const problems = problemsOf({
      'engine.yaml': file(rocker),
      'valves.yaml': file({ ...tappet, ...change }),
    });
    expect(problems).toEqual([`valves.yaml, 'tappet': ${problem}`]);
  });

  it('should take a hyphen for a space when names are compared', () => {
    const problems = problemsOf({
      'engine.yaml': file({ ...rocker, also: ['push-rod'] }, { ...tappet, also: ['push rod'] }),
    });
    expect(problems).toEqual([
      "engine.yaml, 'tappet': also: 'push rod' already stands as also of engine.yaml, 'rocker'",
    ]);
  });

  it('should refuse any shipped word that is given to one part more', () => {
    const { parts } = lexicon;
    const whole = Object.fromEntries(
      [...new Set(parts.map((part) => part.area))].map((area) => [
        `${area}.yaml`,
        file(...parts.filter((part) => part.area === area).map(({ area: _area, ...entry }) => entry)),
      ]),
    );
    const words = parts.flatMap((part) => [part.name, ...part.also, ...part.misheard]);
    expect(problemsOf(whole)).toEqual([]);
    fc.assert(
      fc.property(fc.constantFrom(...words), (word) => {
        const problems = problemsOf({
          ...whole,
          'zz-extra.yaml': file({ ...rocker, name: 'a part of no machine', misheard: [word] }),
        });
        expect(problems).toHaveLength(1);
        expect(problems[0]).toContain(`misheard: '${word}' already stands as `);
      }),
      { numRuns: 5 },
    );
  });
});
