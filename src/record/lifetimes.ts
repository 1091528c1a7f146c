export const DAY_MS = 24 * 60 * 60 * 1000;

/** Ids of commands and effects outlive everything that could ask for them again: updates, buttons, queues. */
export const COMMAND_DAYS = 180;
/** A chat server redelivers for a day or so; a month covers a shop that was switched off. */
export const INBOX_DAYS = 30;
/** A button is worth pressing as long as what it is about may still be open. */
export const BUTTON_DAYS = 120;
/** A restoration can run for a year, and its messages are replied to and edited until then. */
export const CHAT_MESSAGE_DAYS = 400;
