import type { Logger } from 'pino';
import type { ShopRecord } from '../record/types.js';
import type { Policy } from '../shop/policy.js';
import type { Outside } from './outside.js';

/** What the desk works with. Time, ids and secrets come from here, never from the machine directly. */
export type DeskDeps = {
  record: ShopRecord;
  log: Logger;
  /** The policies of the shop's file, under those set in chat. */
  policyFromFile: Policy;
  /** Whether the settings name a recogniser for voice notes. */
  canListen: boolean;
  /** The secret of what is asked for, URL-safe, at least 128 bits: nobody else can make it, and asked for again it is the same. */
  secretOf: (asked: string) => string;
  /** The link that opens the bot with a secret. */
  linkFor: (secret: string) => string;
  /** What lies around the record. (Default: nothing of it is seen, and no back-ups are kept) */
  outside?: Outside;
};
