import type { Part } from './schema.js';

const label = (part: Part): string => `${part.area}.yaml, '${part.name}'`;

const doubles = (values: readonly string[]): string[] =>
  values.filter((value, index) => values.indexOf(value) !== index);

const listDoubles = (part: Part): string[] =>
  (['also', 'misheard', 'sides', 'within', 'quantities'] as const).flatMap((field) =>
    doubles(part[field]).map((value) => `${label(part)}: ${field}: '${value}' stands there twice`),
  );

/** What is wrong between the entries: names two parts share, names that can't be told apart, unknown `within`. */
export const clashes = (parts: readonly Part[]): string[] => {
  const owners = new Map<string, Part>();
  const problems: string[] = [];
  const claim = (word: string, part: Part, field: string): void => {
    const owner = owners.get(word);
    if (owner === undefined) owners.set(word, part);
    else problems.push(`${label(part)}: ${field}: '${word}' already belongs to ${label(owner)}`);
  };
  for (const part of parts) claim(part.name, part, 'name');
  for (const part of parts) for (const name of part.also) claim(name, part, 'also');
  for (const part of parts)
    if (part.plural !== undefined && part.plural !== part.name) claim(part.plural, part, 'plural');
  for (const part of parts) for (const word of part.misheard) claim(word, part, 'misheard');
  const canonical = new Set(parts.map((part) => part.name));
  for (const part of parts) {
    for (const parent of part.within)
      if (!canonical.has(parent) || parent === part.name)
        problems.push(`${label(part)}: within: '${parent}' is not the name of another part`);
    problems.push(...listDoubles(part));
  }
  return problems;
};
