import { answerCallbackQuery } from './answer-callback-query.js';
import type { ApiMethods } from 'grammy/types';
import type { Handler } from './call.js';
import { getChat, leaveChat, sendChatAction } from './chat.js';
import { deleteMyCommands, getMyCommands, setMyCommands } from './commands.js';
import { deleteMessage } from './delete-message.js';
import { editMessageCaption, editMessageReplyMarkup, editMessageText } from './edit-message.js';
import { getFile } from './get-file.js';
import { setChatMenuButton, setMyDescription } from './profile.js';
import { sendDocument, sendPhoto, sendVoice } from './send-media.js';
import { sendMediaGroup } from './send-media-group.js';
import { sendMessage } from './send-message.js';
import { deleteWebhook, getUpdates } from './updates.js';

const getMe: Handler<'getMe'> = (call) => call.bot.me;

/** Every method that the rehearsal answers, each result typed by `grammy/types`. */
export const METHODS = {
  getMe,
  getUpdates,
  deleteWebhook,
  sendMessage,
  editMessageText,
  editMessageCaption,
  editMessageReplyMarkup,
  deleteMessage,
  answerCallbackQuery,
  sendPhoto,
  sendVoice,
  sendDocument,
  sendMediaGroup,
  sendChatAction,
  getFile,
  setMyCommands,
  getMyCommands,
  deleteMyCommands,
  setChatMenuButton,
  setMyDescription,
  getChat,
  leaveChat,
} satisfies { [M in keyof ApiMethods]?: Handler<M> };

/** A method of the rehearsal. */
export type MethodName = keyof typeof METHODS;

/** The rehearsal's method of this name in any letter case ("all methods are case-insensitive"), or null. */
export function named(name: string): MethodName | null {
  const wanted = name.toLowerCase();
  return (Object.keys(METHODS) as MethodName[]).find((key) => key.toLowerCase() === wanted) ?? null;
}
