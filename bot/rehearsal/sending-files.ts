import { readFile } from 'node:fs/promises';
import { addDocument, addPhoto, addSticker, addVoice } from './media.js';
import { caption, write, type Done, type Hand, type WritingOptions } from './writing.js';

/** A file's content, or where it lies. */
export type Content = Uint8Array | string;

/** What goes with a file. `size` is what the Bot API tells of it, where not that of the bytes. */
export type FileOptions = WritingOptions & { caption?: string; size?: number };

/** One picture of an album. */
export type AlbumPart = { bytes: Content; size?: number };

/** What a person can send beside text. */
export type FileSending = {
  photo: (content: Content, options?: FileOptions) => Promise<Done>;
  /** Several photos: an update each, one media_group_id, the caption on the part with index `on` (default the first). */
  album: (
    parts: AlbumPart[],
    options?: WritingOptions & { caption?: string; on?: number },
  ) => Promise<Done[]>;
  /** A voice note; `mime` null leaves the field out. Default audio/ogg. */
  voice: (
    content: Content,
    options: FileOptions & { seconds: number; mime?: string | null },
  ) => Promise<Done>;
  sticker: (options?: FileOptions & { emoji?: string }) => Promise<Done>;
  /** A document; `mime` null (the default) leaves the field out. */
  document: (
    content: Content,
    options: FileOptions & { name: string; mime?: string | null },
  ) => Promise<Done>;
};

/** Makes the ways of sending files. `take` gives the hand as of now. */
export function fileSending(take: () => Promise<Hand>): FileSending {
  return {
    photo: async (content, options = {}) => {
      const media = { bytes: await bytesOf(content), size: options.size };
      const hand = await take();
      return write(hand, { ...addPhoto(hand.bot.files, media), ...captionOf(options) }, options);
    },
    album: async (parts, options = {}) => {
      const read = await Promise.all(
        parts.map(async ({ bytes, size }) => ({ bytes: await bytesOf(bytes), size })),
      );
      const hand = await take();
      const media_group_id = String(hand.bot.nextNumber());
      return read.map((media, index) => {
        const words = index === (options.on ?? 0) ? captionOf(options) : {};
        return write(hand, { ...addPhoto(hand.bot.files, media), media_group_id, ...words }, options);
      });
    },
    voice: async (content, options) => {
      const media = { bytes: await bytesOf(content), size: options.size };
      const hand = await take();
      const mime = options.mime === undefined ? 'audio/ogg' : options.mime;
      const voice = addVoice(hand.bot.files, media, { seconds: options.seconds, mime });
      return write(hand, { ...voice, ...captionOf(options) }, options);
    },
    sticker: async (options = {}) => {
      const hand = await take();
      return write(
        hand,
        { ...addSticker(hand.bot.files, options.emoji ?? '🔧'), ...captionOf(options) },
        options,
      );
    },
    document: async (content, options) => {
      const media = { bytes: await bytesOf(content), size: options.size };
      const hand = await take();
      const document = addDocument(hand.bot.files, media, { name: options.name, mime: options.mime ?? null });
      return write(hand, { ...document, ...captionOf(options) }, options);
    },
  };
}

const captionOf = (options: WritingOptions & { caption?: string }) => caption(options.caption ?? '', options);

const bytesOf = async (content: Content): Promise<Uint8Array> =>
  typeof content === 'string' ? readFile(content) : content;
