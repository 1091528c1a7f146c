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
  /** A new secret for an invitation, URL-safe, at least 128 bits. */
  newSecret: () => string;
  /** The link that opens the bot with a secret. */
  linkFor: (secret: string) => string;
  /** What lies around the record. (Default: nothing of it is seen, and no back-ups are kept) */
  outside?: Outside;
};
