import type { ItemReading } from '../../hearing/reading.js';
import type { Button, Speaker } from '../answer.js';
import { readingWith } from './corrected.js';
import type { Told } from './told.js';
import { askAbout, type Choice } from './unsure-questions.js';

export type Asked = { line: string; buttons: Button[] };

/**
 * The fields worth a question, the one that most hangs on first: which thing it was puts
 * all the rest in its place, what was done moves it about. The others are only said ('I took it as …').
 */
const ASKED = ['item', 'part', 'act', 'outcome', 'remedy', 'supplier', 'due', 'cost', 'place'];

const CHOICES_AT_MOST = 3;

/** The one question about what the reader was not sure of, with what else could have been meant; null where none is worth asking. */
export function unsureQuestion(told: Told, speaker: Speaker): Asked | null {
  const items = readItems(told);
  for (const field of ASKED) {
    for (const item of items.filter(({ unsure }) => unsure.includes(field))) {
      const asked = askAbout(field, item, told, speaker);
      if (asked)
        return {
          line: asked.line,
          buttons: asked.choices
            .slice(0, CHOICES_AT_MOST)
            .map((choice) => chosen(told, items, item, field, choice)),
        };
    }
  }
  return null;
}

/** What was read, each thing once. */
export const readItems = ({ said }: Told): ItemReading[] => [...new Set(said?.reading.items ?? [])];

/** A choice takes the message again with this field put so, in place of what was recorded; or without the thing at all. */
function chosen(
  told: Told,
  items: readonly ItemReading[],
  item: ItemReading,
  field: string,
  { label, instead }: Choice,
): Button {
  const { said, job, message } = told;
  if (!said) throw new Error('only something read can be unsure');
  const unsure = item.unsure.filter((each) => each !== field);
  const corrected = items.flatMap((each): ItemReading[] => {
    if (each !== item) return [each];
    return instead === null ? [] : [{ ...item, ...instead, unsure }];
  });
  return {
    label,
    action: {
      do: 'apply',
      job,
      message,
      messageId: said.messageId,
      reading: readingWith(said.reading, corrected),
      attachments: [...said.attachments],
      instead: true,
    },
  };
}
