import { z } from 'zod';
import { badRequest } from './faults.js';
import { LIMITS } from './limits.js';
import { structured } from './params.js';

const callbackButton = z.object({ text: z.string(), callback_data: z.string() });
const urlButton = z.object({ text: z.string(), url: z.string().min(1) });
const copyButton = z.object({ text: z.string(), copy_text: z.object({ text: z.string() }) });

/** An inline keyboard with the kinds of button that the rehearsal can press or show. */
const inlineKeyboard = z.object({
  inline_keyboard: z.array(z.array(z.union([callbackButton, urlButton, copyButton]))),
});

/** Keyboards below the input field: accepted, and not shown. */
const replyKeyboard = z.union([
  z.looseObject({ keyboard: z.array(z.array(z.unknown())) }),
  z.looseObject({ remove_keyboard: z.literal(true) }),
  z.looseObject({ force_reply: z.literal(true) }),
]);

/** The parameter `reply_markup` of methods that send. */
export const markupParam = structured(z.union([inlineKeyboard, replyKeyboard]));

/** The parameter `reply_markup` of methods that edit. */
export const inlineMarkupParam = structured(inlineKeyboard);

/** An inline keyboard as it is stored with a message. */
export type Keyboard = z.output<typeof inlineKeyboard>;

/** The inline keyboard of a parameter, checked; null where there is none or it is empty. */
export function inlineOf(markup: z.output<typeof markupParam> | undefined): Keyboard | null {
  if (markup === undefined || !('inline_keyboard' in markup)) return null;
  const keyboard = inlineKeyboard.parse(markup);
  const rows = keyboard.inline_keyboard.filter((row) => row.length > 0);
  for (const button of rows.flat()) {
    if (button.text === '') throw badRequest('inline keyboard button text must be non-empty');
    if ('callback_data' in button) checkData(button.callback_data);
  }
  return rows.length === 0 ? null : { inline_keyboard: rows };
}

/** callback_data: 1-64 bytes. Source: Bot API documentation, InlineKeyboardButton. */
function checkData(data: string): void {
  const bytes = Buffer.byteLength(data, 'utf8');
  if (bytes < 1 || bytes > LIMITS.callbackDataBytes) throw badRequest('BUTTON_DATA_INVALID');
}
