import type { Contact, SupplierRole } from './cast.js';

/** Something that is away: when it was promised for, and when it comes in truth. */
export type Away = {
  part: string;
  supplier: SupplierRole;
  kind: 'sent' | 'ordered';
  promised: string;
  comesOn: string;
  /** It comes back wrong the first time. */
  isRefusedFirst: boolean;
};

/** How far a machine of the play has come, and what is still to be said of it. */
export type JobRun = {
  title: string;
  owner: Contact;
  opensOn: string;
  stage: 'to-come' | 'looked-over' | 'decided' | 'away' | 'built' | 'ridden' | 'gone';
  /** What is still to be found, as said. */
  finds: string[];
  /** What is to go out once the owner has said yes. */
  goings: Omit<Away, 'promised' | 'comesOn'>[];
  away: Away[];
  /** What is done at the bench itself. */
  works: string[];
  /** Suppliers who had something of it. */
  dealtWith: Set<SupplierRole>;
};
