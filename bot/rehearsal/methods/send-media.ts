import { z } from 'zod';
import type { BenchMessage } from '../bench-message.js';
import { post } from '../bot-state.js';
import type { MediaContent } from '../media.js';
import { read, whole } from '../params.js';
import { captionText } from '../text.js';
import { writerOf, type Call, type Handler } from './call.js';
import { documentFrom, photoFrom, voiceFrom } from './media-input.js';
import { replyTo } from './replies.js';
import { asCaption, captionParams, sendingParams, withKeyboard } from './sending.js';

const media = z.string().optional();
const common = { ...sendingParams, ...captionParams };
const photoSchema = z.object({ ...common, photo: media });
const voiceSchema = z.object({ ...common, voice: media, duration: whole.default(0) });
const documentSchema = z.object({ ...common, document: media });

/** sendPhoto: an upload or a file id, up to 10 MB, with a caption. */
export const sendPhoto: Handler<'sendPhoto'> = (call) => {
  const params = read(photoSchema, call.params);
  return postMedia(call, params, () => photoFrom(call, params.photo, 'photo'));
};

/** sendVoice: an upload or a file id, up to 50 MB. */
export const sendVoice: Handler<'sendVoice'> = (call) => {
  const params = read(voiceSchema, call.params);
  return postMedia(call, params, () => voiceFrom(call, params.voice, params.duration));
};

/** sendDocument: an upload or a file id, up to 50 MB. */
export const sendDocument: Handler<'sendDocument'> = (call) => {
  const params = read(documentSchema, call.params);
  return postMedia(call, params, () => documentFrom(call, params.document, 'document'));
};

type MediaParams = Pick<
  z.output<typeof photoSchema>,
  'chat_id' | 'parse_mode' | 'reply_parameters' | 'reply_markup' | 'caption' | 'caption_entities'
>;

function postMedia<C extends MediaContent>(
  call: Call,
  params: MediaParams,
  content: () => C,
): BenchMessage & C {
  const room = call.bot.rooms.writable(params.chat_id);
  return post(call.bot, room, writerOf(call), {
    ...asCaption(captionText(params.caption, params.parse_mode, params.caption_entities)),
    ...withKeyboard(params.reply_markup),
    ...replyTo(room, params.reply_parameters),
    ...content(),
  });
}
