import { z } from 'zod';

/** The archive's layout. Raised when a reader of the one before could not read it. */
export const ARCHIVE_SCHEMA = 1;
export const MANIFEST = 'manifest.json';
export const RECORD = 'record.jsonl';
/** Files lie under this folder as they do in the shop's own: by the first two digits of the hash, then the hash. */
export const FILES = 'files';

const count = z.number().int().nonnegative();

export const manifestSchema = z.strictObject({
  format: z.literal('benchhand-shop'),
  schema: z.number().int().positive(),
  shop: z.string(),
  /** The server's time of the moment that the archive shows, ISO 8601. */
  takenAt: z.string(),
  /** SHA-256 of record.jsonl; a file's is its name. */
  record: z.strictObject({ sha256: z.string(), bytes: count, rows: count }),
  streams: z.record(z.string(), count),
  counts: z.strictObject({ streams: count, events: count, files: count, fileBytes: count }),
  /** Files that the record knows but that were not on the disk. */
  missingFiles: z.array(z.string()),
});
export type Manifest = z.infer<typeof manifestSchema>;

const fieldsAndValues = z.array(z.tuple([z.string(), z.string()]));

const anyRow = {
  /** The key without the shop's prefix. */
  key: z.string(),
  /** Ms since 1970; absent on keys that stay. */
  expiresAt: z.number().int().optional(),
};

/** One line of record.jsonl: a key, or some of a key's entries. Text, so that it outlives versions of Redis. */
export const rowSchema = z.discriminatedUnion('type', [
  z.strictObject({ ...anyRow, type: z.literal('string'), value: z.string() }),
  z.strictObject({ ...anyRow, type: z.literal('hash'), fields: fieldsAndValues }),
  z.strictObject({ ...anyRow, type: z.literal('set'), members: z.array(z.string()) }),
  z.strictObject({ ...anyRow, type: z.literal('zset'), members: fieldsAndValues }),
  z.strictObject({
    ...anyRow,
    type: z.literal('stream'),
    entries: z.array(z.tuple([z.string(), z.array(z.string())])),
  }),
]);
export type Row = z.infer<typeof rowSchema>;

/** Gives a list pairwise: [a, 1, b, 2] is [[a, 1], [b, 2]]. */
export function pairwise(list: readonly string[]): [string, string][] {
  return list.flatMap((first, index) => (index % 2 === 0 ? [[first, list[index + 1] ?? '']] : []));
}
