import { z } from 'zod';
import { post } from '../bot-state.js';
import { badRequest } from '../faults.js';
import { LIMITS } from '../limits.js';
import { read, structured } from '../params.js';
import { captionText } from '../text.js';
import { writerOf, type Call, type Handler } from './call.js';
import { documentFrom, photoFrom } from './media-input.js';
import { replyTo } from './replies.js';
import { asCaption, captionParams, sendingParams } from './sending.js';

const item = z.object({
  type: z.enum(['photo', 'document']),
  media: z.string(),
  parse_mode: z.string().optional(),
  ...captionParams,
});
const schema = z.object({
  chat_id: sendingParams.chat_id,
  reply_parameters: sendingParams.reply_parameters,
  media: structured(z.array(item)),
});

/** sendMediaGroup: an album of 2-10 photos, or of documents; one message each, with one media_group_id. */
export const sendMediaGroup: Handler<'sendMediaGroup'> = (call) => {
  const params = read(schema, call.params);
  const room = call.bot.rooms.writable(params.chat_id);
  const { min, max } = LIMITS.albumItems;
  const { media } = params;
  if (media.length < min || media.length > max)
    throw badRequest(`an album has ${min}-${max} items, not ${media.length}`);
  if (new Set(media.map(({ type }) => type)).size > 1)
    throw badRequest("document can't be mixed with other media types");
  const reply = replyTo(room, params.reply_parameters);
  const contents = media.map((one) => contentOf(call, one));
  const media_group_id = String(call.bot.nextNumber());
  return contents.map((content) =>
    post(call.bot, room, writerOf(call), { ...reply, ...content, media_group_id }),
  );
};

function contentOf(call: Call, one: z.output<typeof item>) {
  const caption = asCaption(captionText(one.caption, one.parse_mode, one.caption_entities));
  switch (one.type) {
    case 'photo':
      return { ...photoFrom(call, one.media, 'photo'), ...caption };
    case 'document':
      return { ...documentFrom(call, one.media, 'document'), ...caption };
  }
}
