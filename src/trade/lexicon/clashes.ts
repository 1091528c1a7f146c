import type { Part } from './schema.js';

/** A name as it is compared: lower case, hyphens as spaces, single spaces. */
export const folded = (name: string): string =>
  name.toLowerCase().replaceAll('-', ' ').replace(/\s+/g, ' ').trim();

const label = (part: Part): string => `${part.area}.yaml, '${part.name}'`;

type Claim = { word: string; part: Part; field: 'name' | 'plural' | 'also' | 'misheard' };

/** Every word of every part, canonical names first, so that a clash is told of the less binding entry. */
const claims = (parts: readonly Part[]): Claim[] => [
  ...parts.map((part): Claim => ({ word: part.name, part, field: 'name' })),
  ...parts.flatMap((part): Claim[] =>
    part.plural === undefined || part.plural === part.name
      ? []
      : [{ word: part.plural, part, field: 'plural' }],
  ),
  ...parts.flatMap((part) => part.also.map((word): Claim => ({ word, part, field: 'also' }))),
  ...parts.flatMap((part) => part.misheard.map((word): Claim => ({ word, part, field: 'misheard' }))),
];

const sharedWords = (parts: readonly Part[]): string[] => {
  const owners = new Map<string, Claim>();
  const problems: string[] = [];
  for (const claim of claims(parts)) {
    const owner = owners.get(folded(claim.word));
    if (owner === undefined) owners.set(folded(claim.word), claim);
    else
      problems.push(
        `${label(claim.part)}: ${claim.field}: '${claim.word}' already stands as ${owner.field} of ${label(owner.part)}`,
      );
  }
  return problems;
};

const unknownParents = (parts: readonly Part[]): string[] => {
  const canonical = new Set(parts.map((part) => part.name));
  return parts.flatMap((part) =>
    part.within
      .filter((parent) => !canonical.has(parent) || parent === part.name)
      .map((parent) => `${label(part)}: within: '${parent}' is not the name of another part`),
  );
};

const doubles = (parts: readonly Part[]): string[] =>
  parts.flatMap((part) =>
    (['sides', 'within', 'quantities'] as const).flatMap((field) => {
      const values: readonly string[] = part[field];
      return values
        .filter((value, index) => values.indexOf(value) !== index)
        .map((value) => `${label(part)}: ${field}: '${value}' stands there twice`);
    }),
  );

/**
 * What is wrong between the entries, each problem naming file and entry: a word that two parts (or one part twice)
 * claim, a `within` that is no part's name, a list with the same value twice. Empty when all is well.
 */
export const clashes = (parts: readonly Part[]): string[] => [
  ...sharedWords(parts),
  ...unknownParents(parts),
  ...doubles(parts),
];
