import { createHash } from 'node:crypto';
import type { MediaContent } from './media.js';

/** What a file was sent as: decides its folder, as on the public service. */
export type FileKind = 'photo' | 'voice' | 'document' | 'sticker';

/** A file on the rehearsal server. `size` is what the Bot API reports, which may be more than the bytes kept. */
export type StoredFile = {
  fileId: string;
  uniqueId: string;
  path: string;
  kind: FileKind;
  bytes: Uint8Array;
  size: number;
};

/** The files of one bot. */
export type FileStore = {
  /** Keeps a file; its `file_unique_id` is that of its content, its `file_id` is new each time. */
  add: (file: { kind: FileKind; bytes: Uint8Array; extension: string; size?: number }) => StoredFile;
  byId: (fileId: string) => StoredFile | null;
  byPath: (path: string) => StoredFile | null;
  /** By file id: what a message with that file carries, so that it can be sent again. */
  contents: Map<string, MediaContent>;
};

const FOLDERS: Record<FileKind, string> = {
  photo: 'photos',
  voice: 'voice',
  document: 'documents',
  sticker: 'stickers',
};

/** Makes an empty store; ids run from 1, so that a run repeats itself. */
export function createFileStore(): FileStore {
  const byId = new Map<string, StoredFile>();
  const byPath = new Map<string, StoredFile>();
  return {
    add: ({ kind, bytes, extension, size }) => {
      const number = byId.size + 1;
      const uniqueId = createHash('sha256').update(kind).update(bytes).digest('base64url').slice(0, 15);
      const file: StoredFile = {
        fileId: `${kind}-${uniqueId}-${String(number).padStart(6, '0')}`,
        uniqueId,
        path: `${FOLDERS[kind]}/file_${number}${extension}`,
        kind,
        bytes,
        size: size ?? bytes.byteLength,
      };
      byId.set(file.fileId, file);
      byPath.set(file.path, file);
      return file;
    },
    byId: (fileId) => byId.get(fileId) ?? null,
    byPath: (path) => byPath.get(path) ?? null,
    contents: new Map(),
  };
}
