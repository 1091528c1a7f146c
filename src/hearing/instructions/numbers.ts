/** Numbers told one by one or from first to last: '3', '1 to 6', '2, 5 and 7 to 9'. */
export const NUMBERS = String.raw`\d{1,3}(?:(?:, ?(?:and )?| and | ?& ?| ?- ?| to )\d{1,3})*`;

/** The numbers in words that fit `NUMBERS`, in the order told, each once. */
export function numbersIn(words: string): number[] {
  const spans = words.split(/, ?(?:and )?| and | ?& ?/);
  return [...new Set(spans.flatMap(spanOf))];
}

function spanOf(words: string): number[] {
  const [first = 0, last = first] = words.split(/ ?- ?| to /).map(Number);
  return Array.from({ length: Math.max(0, last - first) + 1 }, (_, index) => first + index);
}
