/**
 * Limits of the Bot API. Source of each: the Bot API documentation, at the method or type named beside it.
 * Where the documentation gives no figure the line says so.
 */
export const LIMITS = {
  /** sendMessage.text: 1-4096 characters after entities parsing. */
  text: 4096,
  /** sendPhoto.caption and the like: 0-1024 characters after entities parsing. */
  caption: 1024,
  /** InlineKeyboardButton.callback_data: 1-64 bytes. */
  callbackDataBytes: 64,
  /** answerCallbackQuery.text: 0-200 characters. */
  callbackAnswer: 200,
  /** Deep linking: the start parameter, up to 64 of A-Z a-z 0-9 _ -. */
  startPayload: /^[A-Za-z0-9_-]{1,64}$/,
  /** getUpdates.limit: 1-100, default 100. */
  updatesPerPoll: 100,
  /** Getting updates: kept until received, but no longer than 24 hours. */
  updateLifeSeconds: 24 * 60 * 60,
  /** getFile: bots can download files of up to 20 MB. */
  downloadBytes: 20 * 1024 * 1024,
  /** Sending files: 10 MB for photos, 50 MB for other files. */
  photoUploadBytes: 10 * 1024 * 1024,
  uploadBytes: 50 * 1024 * 1024,
  /** sendPhoto: width and height at most 10000 in total, their ratio at most 20. */
  photoSideSum: 10_000,
  photoSideRatio: 20,
  /** sendMediaGroup.media: 2-10 items. */
  albumItems: { min: 2, max: 10 },
  /** deleteMessage: only if sent less than 48 hours ago. */
  deletableSeconds: 48 * 60 * 60,
  /** setMyCommands.commands: at most 100. */
  commands: 100,
  /** BotCommand.command: 1-32 of lower-case letters, digits, underscores. */
  command: /^[a-z0-9_]{1,32}$/,
  /** BotCommand.description: 1-256 characters. */
  commandDescription: 256,
  /** setMyDescription.description: 0-512 characters. */
  description: 512,
  /** How long a callback query can be answered: "too old" is documented only as an error; the figure is ours. */
  callbackAnswerSeconds: 15 * 60,
  /** The longest that getUpdates waits: the documentation gives none; 50 s as seen of the public service, from memory. */
  longestPollSeconds: 50,
} as const;
