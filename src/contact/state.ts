import type { ContactEvent, Matter, MessageKind } from './events.js';

export type MessageOut = {
  id: string;
  kind: MessageKind;
  about: Matter[];
  text: string | null;
  intendedAt: number;
  /** All attempts made. */
  tries: number;
  /** Attempts of which no outcome is recorded. */
  attempts: number;
  /** An attempt had no answer: it may have reached them. */
  doubtful: boolean;
  status: 'intended' | 'sent' | 'failed' | 'dropped';
  sentAt: number | null;
  chatMessage: number | null;
  perhapsRepeated: boolean;
  why: string | null;
};

export type ContactState = {
  messages: Readonly<Record<string, MessageOut>>;
  /** When each due step was put into a message to this person, then when that message went, by due id. */
  spokenOf: Readonly<Record<string, number>>;
  /** The last local day that had its message, by kind. */
  lastDay: Partial<Record<MessageKind, string>>;
  received: readonly { text: string; about: Matter[]; at: number }[];
};

export const NEW_CONTACT: ContactState = { messages: {}, spokenOf: {}, lastDay: {}, received: [] };

export type RecordedContactEvent = ContactEvent & { at: number };

/** One person's messages after one more event. */
export function evolveContact(state: ContactState, event: RecordedContactEvent): ContactState {
  switch (event.type) {
    case 'message-intended':
      return intend(state, event.data, event.at);
    case 'message-attempted':
      return withMessage(state, event.data.id, ({ attempts, tries }) => ({
        attempts: attempts + 1,
        tries: tries + 1,
      }));
    case 'message-sent':
      return spoken(
        withMessage(state, event.data.id, () => ({
          status: 'sent',
          sentAt: event.at,
          chatMessage: event.data.chatMessage,
          perhapsRepeated: event.data.perhapsRepeated,
          about: event.data.about,
        })),
        event.data.about,
        event.at,
      );
    case 'message-postponed':
      return withMessage(state, event.data.id, ({ attempts, doubtful }) => ({
        attempts: Math.max(0, attempts - 1),
        doubtful: doubtful || event.data.why === 'no-answer',
      }));
    case 'message-failed':
      return withMessage(state, event.data.id, () => ({ status: 'failed', why: event.data.why }));
    case 'message-dropped':
      return drop(state, event.data);
    case 'message-received':
      return { ...state, received: [...state.received, { ...event.data, at: event.at }] };
    case 'voice-received':
      return state;
    case 'day-passed':
      return { ...state, lastDay: { ...state.lastDay, [event.data.kind]: event.data.day } };
  }
}

type Intended = Extract<ContactEvent, { type: 'message-intended' }>['data'];

function intend(state: ContactState, { id, kind, about, day, text }: Intended, at: number): ContactState {
  const message: MessageOut = {
    id,
    kind,
    about,
    text,
    intendedAt: at,
    tries: 0,
    attempts: 0,
    doubtful: false,
    status: 'intended',
    sentAt: null,
    chatMessage: null,
    perhapsRepeated: false,
    why: null,
  };
  const intended = {
    ...state,
    messages: { ...state.messages, [id]: message },
    lastDay: day === null ? state.lastDay : { ...state.lastDay, [kind]: day },
  };
  return spoken(intended, about, at);
}

/** A step is spoken of once a message has it, so that none says it again; from when that went, the next is counted. */
function spoken(state: ContactState, about: readonly Matter[], at: number): ContactState {
  const dues = about.flatMap((matter) => (matter.due === null ? [] : [[matter.due, at] as const]));
  return { ...state, spokenOf: { ...state.spokenOf, ...Object.fromEntries(dues) } };
}

type Dropped = Extract<ContactEvent, { type: 'message-dropped' }>['data'];

function drop(state: ContactState, { id, why }: Dropped): ContactState {
  const dropped = withMessage(state, id, () => ({ status: 'dropped', why }));
  if (why !== 'late') return dropped;
  const unsaid = new Set(state.messages[id]?.about.map(({ due }) => due));
  const spokenOf = Object.fromEntries(Object.entries(dropped.spokenOf).filter(([due]) => !unsaid.has(due)));
  return { ...dropped, spokenOf };
}

function withMessage(
  state: ContactState,
  id: string,
  change: (message: MessageOut) => Partial<MessageOut>,
): ContactState {
  const message = state.messages[id];
  if (!message) return state;
  return { ...state, messages: { ...state.messages, [id]: { ...message, ...change(message) } } };
}
