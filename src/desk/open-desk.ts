import { matterOf, tellMechanics } from './tell.js';
import { keepBackUp } from './back-up.js';
import { shopWordsOf } from '../hearing/speech/shop-words.js';
import { knownTo } from './bench/known.js';
import { receiveAtBench } from './bench/receive.js';
import type { DeskDeps } from './deps.js';
import type { Desk } from './desk.js';
import { letInMechanics } from './invitations.js';
import { openStore } from './open-store.js';
import { hearOwner } from './owner.js';
import { who } from './people.js';
import { recover } from './recover.js';
import { prepareSend, recordFailed, recordPostponed, recordSent } from './sending.js';
import { hearSupplier } from './supplier.js';
import { makeVisits, wholeVisits } from './visits.js';
import { transcribed } from './voice.js';
import { wake } from './wake.js';
import type { Workplace } from './workplace.js';

/** Opens the desk: the use cases that the bot and the workers share, over one shop's record. */
export function openDesk(deps: DeskDeps): Desk {
  const place: Workplace = { deps, store: openStore(deps) };
  const visit = makeVisits(deps);
  return {
    ...wholeVisits(visit),
    visit,
    who: (chatId) => who(deps, place.store, chatId),
    letIn: (chatIds, at) => letInMechanics(place, chatIds, at),
    wake: (now) => wake(place, now),
    recover: (now) => recover(place, now),
    keepBackUp: (now) => keepBackUp(place, now),
    prepareSend: (contact, message, now) => prepareSend(place, contact, message, now),
    sent: (contact, message, sent, now) => recordSent(place, contact, message, sent, now),
    postponed: (contact, message, why, attempt, now) =>
      recordPostponed(place, contact, message, why, attempt, now),
    failed: (contact, message, why, now) => recordFailed(place, contact, message, why, now),
    fetched: async (job, unique, result, now) => {
      const command =
        'hash' in result
          ? { type: 'attachment-fetched' as const, unique, hash: result.hash }
          : { type: 'attachment-lost' as const, unique, why: result.lost };
      await place.store.toJob(job, { commandId: `fetched-${unique}`, at: now, by: 'benchhand' }, [command]);
    },
    shopWords: async () => {
      const [{ state: shop }, people] = await Promise.all([place.store.shop(), deps.record.people.all()]);
      return shopWordsOf(knownTo({ shop, people, job: null, last: null }));
    },
    transcribed: (key, heard) =>
      transcribed(place, key, heard, async (message) => {
        const identity = await who(deps, place.store, message.chatId);
        const part = identity.kind === 'person' ? identity.speaksAs : 'owner';
        if (part === 'mechanic') return receiveAtBench(place, message);
        return part === 'supplier' ? hearSupplier(place, message) : hearOwner(place, message);
      }),
    poisoned: async (key, raw, now) => {
      await deps.record.inbox.poison(key, raw);
      const about = [matterOf(null, { step: 'poison' })];
      await tellMechanics(place, { id: `${key}-poison`, kind: 'trouble', about, at: now, by: 'benchhand' });
    },
  };
}
