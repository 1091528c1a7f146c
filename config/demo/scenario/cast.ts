import { ZONE } from '../shop-time.js';

/** Somebody in the invented shop. All names, firms and numbers are made up; the telephone numbers are of a range kept for fiction (Ofcom, 01632 960000 to 960999). */
export type CastMember = {
  firstName: string;
  lastName?: string;
  /** What they are, for whoever reads the conversation. */
  part: string;
  /** Whether they are a mechanic named in the settings. */
  mechanic?: boolean;
};

export const CAST = {
  hettie: { firstName: 'Hettie', lastName: 'Marl', part: 'mechanic', mechanic: true },
  joss: { firstName: 'Joss', lastName: 'Tarrow', part: 'second hand' },
  averill: { firstName: 'Ruth', lastName: 'Averill', part: 'owner' },
  plater: { firstName: 'Dov', lastName: 'Cobnut', part: 'plater' },
  painter: { firstName: 'Imke', lastName: 'Tansy', part: 'painter' },
  dealer: { firstName: 'Gib', lastName: 'Sallow', part: 'parts dealer' },
  stranger: { firstName: 'Perrin', part: 'stranger' },
} as const satisfies Record<string, CastMember>;

export type Who = keyof typeof CAST;

export const WHO = Object.keys(CAST) as Who[];

export const member = (who: Who): CastMember => CAST[who];

export const SHOP_FILE = `name: Marl's workshop
zone: ${ZONE}
currency: GBP
`;
