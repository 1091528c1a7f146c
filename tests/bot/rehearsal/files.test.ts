import { writeFile, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { hydrateFiles } from '@grammyjs/files';
import { InputFile, InputMediaBuilder } from 'grammy';
import { describe, expect, it } from 'vitest';
import { gif } from './pictures.js';
import { botOn, poll, rehearse } from './stage.js';

const MB = 1024 * 1024;

async function bench() {
  const rehearsal = await rehearse();
  const bot = botOn(rehearsal);
  bot.api.config.use(hydrateFiles(bot.token, { apiRoot: rehearsal.url }));
  const ada = rehearsal.person({ firstName: 'Ada', started: true });
  const download = async (fileId: string) => {
    const file = await bot.api.getFile(fileId);
    const url = (file as unknown as { getUrl: () => string }).getUrl();
    return Buffer.from(await (await fetch(url)).arrayBuffer());
  };
  return { rehearsal, bot, api: bot.api, ada, chat: ada.chatId, download };
}

describe('files from a person to the bot', () => {
  it('a photo: sizes from small to large, the last one is what was sent', async () => {
    const { api, ada, download } = await bench();
    const bytes = gif(1600, 900, 5000);
    await ada.photo(bytes, { caption: 'rear hub /look' });
    const [update] = await api.getUpdates();
    const message = update?.message;
    expect(message).toMatchObject({
      caption: 'rear hub /look',
      caption_entities: [{ type: 'bot_command', offset: 9, length: 5 }],
      photo: [
        { width: 90, height: 51 },
        { width: 1600, height: 900, file_size: bytes.byteLength },
      ],
    });
    expect(await download(message?.photo?.at(-1)?.file_id ?? '')).toEqual(bytes);
    expect(await download(message?.photo?.[0]?.file_id ?? '')).not.toEqual(bytes);
  });

  it('the same picture twice: another file_id, the same file_unique_id', async () => {
    const { api, ada } = await bench();
    for (const bytes of [gif(8, 6), gif(8, 6), gif(8, 7)]) await ada.photo(bytes);
    const files = (await api.getUpdates()).map((update) => update.message?.photo?.at(-1));
    expect(new Set(files.map((file) => file?.file_id)).size).toBe(3);
    expect(new Set(files.map((file) => file?.file_unique_id)).size).toBe(2);
    expect(files[0]?.file_unique_id).toBe(files[1]?.file_unique_id);
  });

  it('a file from disk', async () => {
    const { ada } = await bench();
    const folder = await mkdtemp(join(tmpdir(), 'rehearsal-'));
    try {
      const path = join(folder, 'hub.gif');
      await writeFile(path, gif(20, 10));
      await ada.photo(path);
    } finally {
      await rm(folder, { recursive: true });
    }
    expect(ada.messages()[0]?.bytes).toEqual(gif(20, 10));
  });

  it('an album: separate updates, one media_group_id, the caption on any part', async () => {
    const { api, ada } = await bench();
    await ada.album(
      [1, 2, 3].map((width) => ({ bytes: gif(width, 1) })),
      { caption: 'crankcase', on: 1 },
    );
    await ada.album([{ bytes: gif(4, 1) }]);
    const messages = (await api.getUpdates()).map((update) => update.message);
    expect(messages.map((message) => message?.caption)).toEqual([
      undefined,
      'crankcase',
      undefined,
      undefined,
    ]);
    const groups = messages.map((message) => message?.media_group_id);
    expect(new Set(groups.slice(0, 3)).size).toBe(1);
    expect(groups[3]).not.toBe(groups[0]);
  });

  it('a voice note, whose mime type may be missing; a sticker; a document', async () => {
    const { api, ada, download } = await bench();
    const sound = Buffer.from('OggS not really');
    await ada.voice(sound, { seconds: 6 });
    await ada.voice(sound, { seconds: 2, mime: null });
    await ada.sticker({ caption: 'oddly captioned' });
    await ada.document(Buffer.from('a,b'), { name: '../../list.csv', mime: 'text/csv' });
    const messages = (await api.getUpdates()).map((update) => update.message);
    expect(messages).toMatchObject([
      { voice: { duration: 6, mime_type: 'audio/ogg' } },
      { voice: { duration: 2 } },
      { sticker: { type: 'regular' }, caption: 'oddly captioned' },
      { document: { file_name: '../../list.csv', mime_type: 'text/csv', file_size: 3 } },
    ]);
    expect(messages[1]?.voice).not.toHaveProperty('mime_type');
    expect(await download(messages[0]?.voice?.file_id ?? '')).toEqual(sound);
    const { file_path } = await api.getFile(messages[3]?.document?.file_id ?? '');
    expect(file_path).toMatch(/^documents\/file_\d+\.csv$/);
  });

  // Source: Bot API documentation, getFile: "bots can download files of up to 20MB in size"
  it('getFile: 20 MB pass, a byte more does not', async () => {
    const { api, ada } = await bench();
    await ada.photo(gif(8, 6), { size: 20 * MB });
    await ada.photo(gif(8, 6), { size: 20 * MB + 1 });
    const [small, large] = (await api.getUpdates()).map((update) => update.message?.photo?.at(-1));
    expect((await api.getFile(small?.file_id ?? '')).file_size).toBe(20 * MB);
    await expect(api.getFile(large?.file_id ?? '')).rejects.toMatchObject({
      error_code: 400,
      description: 'Bad Request: file is too big',
    });
    await expect(api.getFile('nonsense')).rejects.toMatchObject({ error_code: 400 });
  });

  it('a download is refused without the token, for an unknown path, and when it is made to fail', async () => {
    const { rehearsal, api, ada } = await bench();
    await ada.photo(gif(8, 6));
    const [update] = await api.getUpdates();
    const { file_path } = await api.getFile(update?.message?.photo?.at(-1)?.file_id ?? '');
    const status = async (token: string, path: string) =>
      (await fetch(`${rehearsal.url}/file/bot${token}/${path}`)).status;
    expect(await status(rehearsal.token, file_path ?? '')).toBe(200);
    expect(await status('1:wrong', file_path ?? '')).toBe(401);
    expect(await status(rehearsal.token, 'photos/file_99.jpg')).toBe(404);
    rehearsal.fail({ method: 'file', kind: '500' });
    expect(await status(rehearsal.token, file_path ?? '')).toBe(500);
  });
});

describe('files from the bot to a person', () => {
  it('uploads through InputFile: photo, voice, document; then again by file id', async () => {
    const { api, ada, chat } = await bench();
    const picture = gif(640, 480, 3000);
    const sent = await api.sendPhoto(chat, new InputFile(picture, 'timeline.gif'), { caption: 'The plan' });
    expect(sent.photo.at(-1)).toMatchObject({ width: 640, height: 480, file_size: picture.byteLength });
    const note = await api.sendVoice(chat, new InputFile(Buffer.from('OggS'), 'note.oga'), { duration: 4 });
    expect(note.voice.duration).toBe(4);
    const paper = await api.sendDocument(chat, new InputFile(Buffer.from('%PDF'), 'job sheet ü.pdf'));
    expect(paper.document.file_name).toBe('job sheet ü.pdf');
    await api.sendPhoto(chat, sent.photo.at(-1)?.file_id ?? '');
    expect(ada.messages().map(({ kind }) => kind)).toEqual(['photo', 'voice', 'document', 'photo']);
    expect(ada.last()?.bytes).toEqual(picture);
    await expect(api.sendPhoto(chat, paper.document.file_id)).rejects.toMatchObject({ error_code: 400 });
    await expect(api.sendPhoto(chat, 'https://example.test/a.jpg')).rejects.toMatchObject({
      error_code: 400,
    });
  });

  it('sends an album with captions', async () => {
    const { api, ada, chat } = await bench();
    const part = (width: number) => InputMediaBuilder.photo(new InputFile(gif(width, 20), 'a.gif'));
    const first = InputMediaBuilder.photo(new InputFile(gif(20, 20), 'a.gif'), { caption: 'both sides' });
    await api.sendMediaGroup(chat, [first, part(30)]);
    const [one, two] = ada.messages();
    expect([one?.text, two?.text]).toEqual(['both sides', '']);
    expect(one?.mediaGroupId).toBe(two?.mediaGroupId);
    // Source: Bot API documentation, sendMediaGroup: 2-10 items
    await expect(api.sendMediaGroup(chat, [part(1)])).rejects.toMatchObject({ error_code: 400 });
    await expect(
      api.sendMediaGroup(
        chat,
        Array.from({ length: 11 }, () => part(1)),
      ),
    ).rejects.toMatchObject({
      error_code: 400,
    });
    expect(ada.messages()).toHaveLength(2);
  });

  // Source: Bot API documentation, sendPhoto: 10 MB, width plus height 10000, ratio 20
  it('sendPhoto: refuses what is too large, too long, or no picture', async () => {
    const { api, chat } = await bench();
    const send = (bytes: Buffer) => api.sendPhoto(chat, new InputFile(bytes, 'a.gif'));
    await send(gif(9000, 1000));
    await expect(send(gif(9001, 1000))).rejects.toThrow(/PHOTO_INVALID_DIMENSIONS/);
    await send(gif(200, 10));
    await expect(send(gif(201, 10))).rejects.toThrow(/PHOTO_INVALID_DIMENSIONS/);
    await expect(send(Buffer.from('no picture'))).rejects.toThrow(/IMAGE_PROCESS_FAILED/);
    await expect(send(Buffer.alloc(0))).rejects.toThrow(/file must be non-empty/);
    await expect(send(gif(8, 6, 10 * MB))).rejects.toMatchObject({ error_code: 413 });
  });

  // Source: Bot API documentation, "Sending files": 50 MB for other files
  it('sendDocument: 50 MB pass, a byte more does not', async () => {
    const { api, chat } = await bench();
    const send = (size: number) => api.sendDocument(chat, new InputFile(Buffer.alloc(size), 'a.bin'));
    expect((await send(50 * MB)).document.file_size).toBe(50 * MB);
    await expect(send(50 * MB + 1)).rejects.toMatchObject({ error_code: 413 });
  });

  it('answers 400 to a form that breaks off', async () => {
    const { rehearsal, chat } = await bench();
    const body = '--x\r\ncontent-disposition: form-data; name="chat_id"\r\n\r\n' + chat;
    const answer = await fetch(`${rehearsal.url}/bot${rehearsal.token}/sendPhoto`, {
      method: 'POST',
      headers: { 'content-type': 'multipart/form-data; boundary=x' },
      body,
    });
    expect([answer.status, await answer.json()]).toMatchObject([400, { ok: false, error_code: 400 }]);
  });

  it('sends a person’s own photo back by its id', async () => {
    const { rehearsal, bot, ada } = await bench();
    bot.on('message:photo', async (ctx) => {
      await ctx.replyWithPhoto(ctx.message.photo.at(-1)?.file_id ?? '');
    });
    void poll(bot);
    await ada.photo(gif(64, 48));
    await rehearsal.quiet();
    expect(ada.last()).toMatchObject({ kind: 'photo', bytes: gif(64, 48) });
  });
});
