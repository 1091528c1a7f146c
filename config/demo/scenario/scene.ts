import type { Action } from '../../../src/wording/answer.js';
import type { Who } from './cast.js';

/** A label for a message that a later moment answers or edits. */
export type Label = string;

/** The button to press, by what it does: part of its action. */
export type ButtonPick = { do: Action['do'] } & Readonly<Record<string, unknown>>;

/** What somebody does in a chat. */
export type Deed =
  | { kind: 'says'; text: string; as?: Label; replyTo?: Label }
  | { kind: 'photo'; of: string; caption?: string; replyTo?: Label }
  /** Several photos; the caption is on the part with the index `on`. */
  | { kind: 'album'; of: readonly string[]; caption: string; on: number }
  | { kind: 'voice'; seconds: number }
  | { kind: 'edits'; message: Label; text: string }
  | { kind: 'presses'; button: ButtonPick }
  /** Presses every such button that is offered, those too that come with the answers. */
  | { kind: 'presses-all'; button: ButtonPick; atMost: number }
  /** Opens the link that the mechanic was last given. */
  | { kind: 'takes-invitation' };

/** One thing somebody does, at a local day and time of the shop. */
export type Moment = { day: string; time: string; who: Who; deed: Deed };

/** A stretch of the story under a heading. */
export type Scene = { heading: string; moments: readonly Moment[] };

type Told = (time: string, who: Who, deed: Deed) => Moment;

/** Moments of one day, `YYYY-MM-DD`. */
export const on =
  (day: string): Told =>
  (time, who, deed) => ({ day, time, who, deed });

export const says = (text: string, more: { as?: Label; replyTo?: Label } = {}): Deed => ({
  kind: 'says',
  text,
  ...more,
});

export const photo = (of: string, caption?: string): Deed => ({
  kind: 'photo',
  of,
  ...(caption === undefined ? {} : { caption }),
});

export const presses = (button: ButtonPick): Deed => ({ kind: 'presses', button });
