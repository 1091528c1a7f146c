import { extname } from 'node:path';
import { imageSize } from 'image-size';
import type { Document, PhotoSize, Sticker, Voice } from 'grammy/types';
import type { FileStore, StoredFile } from './files.js';

/** What a message carries of a file. */
export type MediaContent =
  { photo: PhotoSize[] } | { voice: Voice } | { document: Document } | { sticker: Sticker };

/** Bytes with the size that is told of them, where that is another: a large file need not be made to be spoken of. */
export type MediaBytes = { bytes: Uint8Array; size?: number | undefined };

/** Width and height in pixels; null where the bytes are no picture. */
export function pictureSize(bytes: Uint8Array): { width: number; height: number } | null {
  try {
    const { width, height } = imageSize(bytes);
    return { width, height };
  } catch {
    return null;
  }
}

/** What a telephone's camera would say, for bytes that are no picture. */
const SOME_PHOTO = { width: 1280, height: 960 };
const THUMBNAIL_SIDE = 90;

/**
 * Keeps a photo: a thumbnail of 90 pixels, and the photo itself as the last and largest size. The bytes stay as
 * they are (the public service makes a JPEG of them); those of the thumbnail are a stub, so that a bot which takes the
 * wrong size is found out.
 */
export function addPhoto(files: FileStore, { bytes, size }: MediaBytes): { photo: PhotoSize[] } {
  const whole = pictureSize(bytes) ?? SOME_PHOTO;
  const scale = Math.min(1, THUMBNAIL_SIDE / Math.max(whole.width, whole.height));
  const full = files.add({ kind: 'photo', bytes, extension: '.jpg', ...sized(size) });
  const stub = files.add({
    kind: 'photo',
    bytes: Buffer.from(`thumbnail of ${full.uniqueId}`),
    extension: '.jpg',
  });
  const small = {
    width: Math.max(1, Math.round(whole.width * scale)),
    height: Math.max(1, Math.round(whole.height * scale)),
  };
  const photo = [
    { ...identity(stub), ...small },
    { ...identity(full), ...whole },
  ];
  return remember(files, [stub, full], { photo });
}

/** Keeps a voice note. `mime` null: the field is missing, as it may be. */
export function addVoice(
  files: FileStore,
  media: MediaBytes,
  about: { seconds: number; mime: string | null },
): { voice: Voice } {
  const file = files.add({ kind: 'voice', bytes: media.bytes, extension: '.oga', ...sized(media.size) });
  const voice = { ...identity(file), duration: about.seconds, ...mimeOf(about.mime) };
  return remember(files, [file], { voice });
}

/** Keeps a document under the name that its sender gave. */
export function addDocument(
  files: FileStore,
  media: MediaBytes,
  about: { name: string; mime: string | null },
): { document: Document } {
  const extension = /^\.\w{1,10}$/.exec(extname(about.name))?.[0] ?? '';
  const file = files.add({ kind: 'document', bytes: media.bytes, extension, ...sized(media.size) });
  const document = { ...identity(file), file_name: about.name, ...mimeOf(about.mime) };
  return remember(files, [file], { document });
}

/** Keeps a sticker, still and regular. */
export function addSticker(files: FileStore, emoji: string): { sticker: Sticker } {
  const file = files.add({ kind: 'sticker', bytes: Buffer.from(`sticker ${emoji}`), extension: '.webp' });
  const sticker: Sticker = {
    ...identity(file),
    type: 'regular',
    width: 512,
    height: 512,
    is_animated: false,
    is_video: false,
    emoji,
  };
  return remember(files, [file], { sticker });
}

function remember<C extends MediaContent>(files: FileStore, kept: StoredFile[], content: C): C {
  for (const file of kept) files.contents.set(file.fileId, content);
  return content;
}

const identity = (file: StoredFile) => ({
  file_id: file.fileId,
  file_unique_id: file.uniqueId,
  file_size: file.size,
});

const sized = (size: number | undefined) => (size === undefined ? {} : { size });

const mimeOf = (mime: string | null) => (mime === null ? {} : { mime_type: mime });
