import { fileURLToPath } from 'node:url';
import { InputFile, InputMediaBuilder } from 'grammy';
import type { ApiMethods } from 'grammy/types';
import ts from 'typescript';
import { describe, expect, expectTypeOf, it } from 'vitest';
import { METHODS } from '../../../bot/rehearsal/methods/table.js';
import { gif } from './pictures.js';
import { botOn, rehearse } from './stage.js';

/*
 * Every shape against @grammyjs/types, which we did not write: the handlers by their types, and what really came over
 * HTTP by handing it, as literals, to the TypeScript compiler.
 */

type Sample = { type: string; value: unknown };

/**
 * The type of a method's result, as source text. grammY types editMessageCaption by the caption alone, though the whole
 * message comes: the other fields are held against Message.
 */
function typeOf(method: string): string {
  const type = `ReturnType<ApiMethods['${method}']>`;
  return method === 'editMessageCaption' ? `Exclude<${type}, true> & Message` : type;
}

/** Answers and updates of a conversation that uses every method. */
async function samples(): Promise<Sample[]> {
  const rehearsal = await rehearse();
  const { api } = botOn(rehearsal);
  const taken: Sample[] = [];
  api.config.use(async (prev, method, payload, signal) => {
    const answer = await prev(method, payload, signal);
    if (answer.ok) taken.push({ type: typeOf(method), value: answer.result });
    else taken.push({ type: 'ApiError', value: answer });
    return answer;
  });
  const ada = rehearsal.person({
    firstName: 'Ada',
    lastName: 'Quill',
    username: 'quill',
    languageCode: 'en',
  });
  const chat = ada.chatId;
  const reply_markup = {
    inline_keyboard: [
      [
        { text: 'Go', callback_data: 'go' },
        { text: 'Site', url: 'https://example.test' },
      ],
    ],
  };
  await ada.open('invite');
  const { messageId } = await ada.say('see /jobs @somebody #hub https://example.test', {
    forwardFrom: 'Bea',
  });
  await ada.say('and', { replyTo: messageId, forwardFrom: { id: 5, is_bot: false, first_name: 'Bea' } });
  await ada.edit(messageId, 'seen');
  await ada.album([{ bytes: gif(4, 3) }, { bytes: gif(5, 3) }], { caption: '/both', on: 1 });
  await ada.voice(Buffer.from('OggS'), { seconds: 3 });
  await ada.sticker();
  await ada.document(Buffer.from('a'), { name: 'a.csv', mime: 'text/csv' });
  await ada.inGroup().say('hello all');
  await api.getMe();
  await api.deleteWebhook();
  const text = await api.sendMessage(chat, 'bold pre', {
    reply_markup,
    reply_parameters: { message_id: messageId },
    entities: [
      { type: 'bold', offset: 0, length: 4 },
      { type: 'pre', offset: 5, length: 3, language: 'text' },
    ],
  });
  await ada.press('go');
  await api.editMessageText(chat, text.message_id, 'new', { reply_markup });
  await api.editMessageReplyMarkup(chat, text.message_id);
  const photo = await api.sendPhoto(chat, new InputFile(gif(4, 3), 'a.gif'), { caption: 'before' });
  await api.editMessageCaption(chat, photo.message_id, { caption: 'after' });
  await api.sendVoice(chat, new InputFile(Buffer.from('OggS'), 'a.oga'));
  await api.sendDocument(chat, new InputFile(Buffer.from('a'), 'a.csv'));
  const part = InputMediaBuilder.photo(photo.photo[0]?.file_id ?? '');
  await api.sendMediaGroup(chat, [part, part]);
  await api.deleteMessage(chat, photo.message_id);
  await api.sendChatAction(chat, 'typing');
  await api.getFile(photo.photo[1]?.file_id ?? '');
  const updates = await api.getUpdates();
  await api.answerCallbackQuery(updates.find((update) => update.callback_query)?.callback_query?.id ?? '');
  await api.setMyCommands([{ command: 'jobs', description: 'Jobs' }]);
  await api.getMyCommands();
  await api.deleteMyCommands();
  await api.setChatMenuButton({ chat_id: chat, menu_button: { type: 'commands' } });
  await api.setMyDescription('A hand at the bench');
  await api.getChat(chat);
  await api.getChat(-5001);
  await api.leaveChat(-5001);
  await ada.block();
  await api.sendMessage(chat, 'hello').catch(() => undefined);
  rehearsal.fail({ kind: '429' });
  await api.getMe().catch(() => undefined);
  taken.push(...(await api.getUpdates()).map((value) => ({ type: 'Update', value })));
  return taken;
}

/** A value as source text; grammY's types want a quoted message's own reply spelt as undefined. */
function literal(value: unknown, quoted = false): string {
  if (Array.isArray(value)) return `[${value.map((one) => literal(one)).join(',')}]`;
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  const fields = Object.entries(value).map(
    ([key, one]) => `${JSON.stringify(key)}: ${literal(one, key === 'reply_to_message')}`,
  );
  return `{${[...fields, ...(quoted ? ['reply_to_message: undefined'] : [])].join(', ')}}`;
}

const OPTIONS: ts.CompilerOptions = {
  strict: true,
  noEmit: true,
  skipLibCheck: true,
  target: ts.ScriptTarget.ES2022,
  module: ts.ModuleKind.NodeNext,
  moduleResolution: ts.ModuleResolutionKind.NodeNext,
  types: ['node'],
};

/** What the compiler says of the samples, as a file that exists for it alone, beside this one so that it finds grammY. */
function complaints(taken: Sample[]): string[] {
  const name = fileURLToPath(new URL('samples.ts', import.meta.url));
  const lines = taken.map(({ type, value }, index) => `export const s${index}: ${type} = ${literal(value)};`);
  const source = [
    "import type { ApiError, ApiMethods, Message, Update } from 'grammy/types';",
    ...lines,
  ].join('\n');
  const disk = ts.createCompilerHost(OPTIONS);
  const host: ts.CompilerHost = {
    ...disk,
    fileExists: (file) => file === name || disk.fileExists(file),
    readFile: (file) => (file === name ? source : disk.readFile(file)),
    getSourceFile: (file, version, ...rest) =>
      file === name ? ts.createSourceFile(file, source, version) : disk.getSourceFile(file, version, ...rest),
  };
  return ts
    .getPreEmitDiagnostics(ts.createProgram([name], OPTIONS, host))
    .map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'));
}

describe('shapes', () => {
  it('every handler’s result has the type that grammY gives its method', () => {
    type Results = { [M in keyof typeof METHODS]: Awaited<ReturnType<(typeof METHODS)[M]>> };
    type Wanted = { [M in keyof typeof METHODS]: ReturnType<ApiMethods[M]> };
    expectTypeOf<Results>().toExtend<Wanted>();
  });

  it('every answer and update over HTTP passes the compiler', async () => {
    const taken = await samples();
    const used = new Set(taken.flatMap(({ type }) => /ApiMethods\['(\w+)'\]/.exec(type)?.[1] ?? []));
    expect([...used].sort()).toEqual(Object.keys(METHODS).sort());
    expect(taken.filter(({ type }) => type === 'ApiError')).toHaveLength(2);
    expect(complaints(taken)).toEqual([]);
  });

  it('the compiler does complain of a wrong shape', () => {
    const wrong = { type: "ReturnType<ApiMethods['getMe']>", value: { id: 1, is_bot: false } };
    expect(complaints([wrong])).not.toEqual([]);
  });
});
