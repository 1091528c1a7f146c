import type { Document, PhotoSize, Voice } from 'grammy/types';
import { ApiFault, badRequest } from '../faults.js';
import { LIMITS } from '../limits.js';
import { addDocument, addPhoto, addVoice, pictureSize, type MediaContent } from '../media.js';
import type { Upload } from '../multipart.js';
import type { Call } from './call.js';

/** A photo that a bot sends, new or by file id. Limits: Bot API documentation, sendPhoto. */
export function photoFrom(call: Call, given: string | undefined, field: string): { photo: PhotoSize[] } {
  const source = sourceOf(call, given, field);
  if ('upload' in source) {
    checkPhoto(source.upload.bytes);
    return addPhoto(call.bot.files, source.upload);
  }
  if ('photo' in source.sent) return source.sent;
  throw wrongKind();
}

/** A voice note that a bot sends, new or by file id; `seconds` is what the bot says that it lasts. */
export function voiceFrom(call: Call, given: string | undefined, seconds: number): { voice: Voice } {
  const source = sourceOf(call, given, 'voice');
  if ('upload' in source) return addVoice(call.bot.files, source.upload, { seconds, mime: 'audio/ogg' });
  if ('voice' in source.sent) return source.sent;
  throw wrongKind();
}

/** A document that a bot sends, new or by file id. */
export function documentFrom(call: Call, given: string | undefined, field: string): { document: Document } {
  const source = sourceOf(call, given, field);
  if ('upload' in source) {
    const { name, mime } = source.upload;
    return addDocument(call.bot.files, source.upload, { name, mime });
  }
  if ('document' in source.sent) return source.sent;
  throw wrongKind();
}

type Source = { upload: Upload } | { sent: MediaContent };

/** Where the file is: `attach://part`, a part named like the field, or the id of a file sent before. */
function sourceOf(call: Call, given: string | undefined, field: string): Source {
  const upload = call.uploads.get(given?.startsWith('attach://') === true ? given.slice(9) : field);
  if (upload !== undefined) {
    if (upload.bytes.byteLength === 0) throw badRequest('file must be non-empty');
    return { upload };
  }
  if (given === undefined || given === '') throw badRequest(`there is no ${field} in the request`);
  const sent = call.bot.files.contents.get(given);
  if (sent === undefined) throw badRequest('wrong file identifier/HTTP URL specified');
  return { sent };
}

function checkPhoto(bytes: Uint8Array): void {
  if (bytes.byteLength > LIMITS.photoUploadBytes) throw new ApiFault(413, 'Request Entity Too Large');
  const size = pictureSize(bytes);
  if (size === null) throw badRequest('IMAGE_PROCESS_FAILED');
  const { width, height } = size;
  const ratio = Math.max(width, height) / Math.min(width, height);
  if (width + height > LIMITS.photoSideSum || ratio > LIMITS.photoSideRatio)
    throw badRequest('PHOTO_INVALID_DIMENSIONS');
}

const wrongKind = (): ApiFault => badRequest("can't use file of this type here");
