import type { Contact, SupplierRole } from './cast.js';

/** Something that is away: when it was promised for, and when it comes in truth. */
export type Away = {
  part: string;
  supplier: SupplierRole;
  kind: 'sent' | 'ordered';
  promised: string;
  comesOn: string;
  /** What happens the first time it should come; each but 'good' happens once. */
  first: FirstReturn;
  /** The rest of something that came in part. */
  isRest?: boolean;
};

/** 'poor': refused for poor work; 'undone': the supplier will not do it; 'part': three of the four come. */
export type FirstReturn = 'good' | 'poor' | 'undone' | 'part';

export type Going = Omit<Away, 'promised' | 'comesOn' | 'isRest'>;

/** How far a machine of the play has come, and what is still to be said of it. */
export type JobRun = {
  title: string;
  owner: Contact;
  opensOn: string;
  stage:
    | 'to-come'
    | 'looked-over'
    | 'asked'
    | 'ask-again'
    | 'decided'
    | 'away'
    | 'built'
    | 'faulty'
    | 'ridden'
    | 'gone';
  /** What is still to be found, as said. */
  finds: string[];
  /** What is to go out once the owner has said yes. */
  goings: Going[];
  away: Away[];
  /** What is done at the bench itself. */
  works: string[];
  /** Suppliers who had something of it. */
  dealtWith: Set<SupplierRole>;
  /** All that was said of it at the bench. */
  said: string[];
  /** The day on which the owner answers, or is asked again. */
  answersOn: string;
  /** Faults of its rides that are not mended yet, by number, and how many there were. */
  faults: number[];
  faultsFound: number;
  /** Kinds of slip that were made of it: none is made twice. */
  slips: Set<string>;
};

/** A machine that has not come in yet. */
export const newRun = (title: string, owner: Contact, opensOn: string): JobRun => ({
  ...{ title, owner, opensOn, stage: 'to-come' },
  ...{ finds: [], goings: [], away: [], works: [], said: [], faults: [] },
  ...{ dealtWith: new Set(), slips: new Set(), answersOn: '', faultsFound: 0 },
});
