import type { Seen } from '../../../bot/rehearsal/seen.js';

/** An owner's question in their chat, the parts that were ever spoken of on their own machine, and all that was said of it. */
export type OwnQuestion = {
  who: string;
  title: string;
  message: number;
  own: readonly string[];
  said: readonly string[];
};

/** What answers may speak of: parts by the trade's terms, and titles of all machines. */
export type Known = { parts: readonly string[]; titles: readonly string[] };

const SUM = /£(\d+(?:,\d{3})*)/g;

/** The bot's first message after a question. */
function answerTo(messages: readonly Seen[], question: number): Seen | undefined {
  return messages.find(({ by, messageId }) => by === 'bot' && messageId > question);
}

/** An owner who asks is answered from their own job: its machine, its parts and its sums, and no others. */
export function answeredOfOthers(
  { who, title, message, own, said }: OwnQuestion,
  messages: readonly Seen[],
  { parts, titles }: Known,
): string[] {
  const answer = answerTo(messages, message);
  if (answer === undefined) return [`${who} asked and had no answer`];
  const text = answer.text.toLowerCase();
  const strange = parts.filter((part) => text.includes(part) && !own.some((each) => each.includes(part)));
  const others = titles.filter((each) => each !== title && answer.text.includes(each));
  return [...strange, ...others, ...strangeSums(answer.text, said.join('\n'))].map(
    (what) => `${who} asked of ${title} and was told of ${what}: ${answer.text.replaceAll('\n', ' / ')}`,
  );
}

/** A sum is one that was said of the job, or what some of those come to. */
function strangeSums(answer: string, words: string): string[] {
  const said = [...words.matchAll(/(\d+) quid/g)].map(([, sum]) => Number(sum));
  const all = said.reduce((sum, each) => sum + each, 0);
  const told = [...answer.matchAll(SUM)].map(([, sum = '']) => Number(sum.replace(',', '')));
  const total = /in all: (?:about )?£(\d+(?:,\d{3})*)/i.exec(answer)?.[1]?.replace(',', '');
  return told
    .filter((sum) => !said.includes(sum) && !(Number(total) === sum && sum <= all))
    .map((sum) => `£${sum}`);
}
