/** Endings of English words: plurals of parts, and the forms of a verb. */

const IRREGULAR: ReadonlyMap<string, string> = new Map([
  ['halves', 'half'],
  ['leaves', 'leaf'],
  ['sleeves', 'sleeve'],
  ['valves', 'valve'],
  ['feet', 'foot'],
  ['teeth', 'tooth'],
  ['shelves', 'shelf'],
]);

const NONE: readonly string[] = [];
const UNCHANGED = /(ss|us|is|ous)$/;

/** The singular forms a word may have, the word itself last: "bushes" -> bush, bushe, bushes. */
export const singulars = (word: string): string[] => [...otherSingulars(word), word];

/** The same without the word itself; most words have none. */
export function otherSingulars(word: string): readonly string[] {
  const irregular = IRREGULAR.get(word);
  if (irregular !== undefined) return [irregular];
  if (!word.endsWith('s') || word.length < 4 || UNCHANGED.test(word)) return NONE;
  const forms = [word.slice(0, -1)];
  if (/(s|x|z|ch|sh|o)es$/.test(word)) forms.unshift(word.slice(0, -2));
  if (word.endsWith('ies') && word.length > 4) forms.unshift(`${word.slice(0, -3)}y`);
  if (word.endsWith('ves')) forms.push(`${word.slice(0, -3)}f`);
  return forms;
}

const VOWELS = 'aeiou';

function doubles(verb: string): boolean {
  const [third, second, last] = verb.slice(-3);
  if (third === undefined || second === undefined || last === undefined) return false;
  const short = verb.length <= 4 || /(fit|skim|bag|tag|ship|strip|plan|scrap|refit)$/.test(verb);
  return (
    short &&
    !VOWELS.includes(last) &&
    !'wxy'.includes(last) &&
    VOWELS.includes(second) &&
    !VOWELS.includes(third)
  );
}

/** All regular forms of a verb: "skim" -> skim, skims, skimmed, skimming. */
export function verbForms(verb: string): string[] {
  const [head, ...rest] = verb.split(' ');
  if (head === undefined) return [];
  const tail = rest.length > 0 ? ` ${rest.join(' ')}` : '';
  const third = /(s|x|z|ch|sh)$/.test(head) ? `${head}es` : head.replace(/([^aeiou])y$/, '$1ie') + 's';
  const stem = head.endsWith('e') ? head.slice(0, -1) : doubles(head) ? head + head.slice(-1) : head;
  const past = head.endsWith('e') ? `${head}d` : `${stem.replace(/([^aeiou])y$/, '$1i')}ed`;
  return [head, third, past, `${/ee$/.test(head) ? head : stem}ing`].map((form) => form + tail);
}
