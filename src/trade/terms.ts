/** The closed vocabularies of the trade: every room uses these words and no others for the same things. */

export const PLACES = [
  'front',
  'rear',
  'left',
  'right',
  'upper',
  'lower',
  'inner',
  'outer',
  'inlet',
  'exhaust',
  'drive-side',
  'timing-side',
] as const;
export type Place = (typeof PLACES)[number];

export const CONDITIONS = [
  'good',
  'pitted',
  'rusty',
  'worn',
  'scored',
  'cracked',
  'bent',
  'stripped-thread',
  'seized',
  'leaking',
  'missing',
  'broken',
  'flaking',
  'dented',
  'perished',
  'loose',
  'tight',
  'stretched',
  'burnt',
  'glazed',
  'chipped',
  'contaminated',
  'incorrect',
  'bodged',
  'dirty',
  'noisy',
  'out-of-true',
  'oval',
  'split',
  'weak',
] as const;
export type Condition = (typeof CONDITIONS)[number];

export const REMEDIES = ['keep', 'clean', 'repair', 'send-out', 'make', 'replace', 'check'] as const;
export type Remedy = (typeof REMEDIES)[number];

export const PROCESSES = [
  'blast',
  'paint',
  'powder-coat',
  'chrome',
  'nickel',
  'zinc',
  'polish',
  'strip-plating',
  'hard-chrome',
  'metal-spray',
  'regrind',
  'rebore',
  'hone',
  'reline',
  'rewind',
  'remagnetise',
  'rebuild',
  'wheel-build',
  'straighten',
  'weld',
  'machine',
  'skim',
  'ream',
  'upholster',
  'balance',
  'anodise',
  'vapour-blast',
  'ultrasonic-clean',
  'crack-test',
  'line-tank',
  'transfer',
  'lacquer',
] as const;
export type Process = (typeof PROCESSES)[number];

/** In the order in which a restoration usually meets them; they overlap. */
export const GATES = [
  'stripped',
  'inspected',
  'parts-ordered',
  'sublet-out',
  'reassembled',
  'road-tested',
] as const;
export type Gate = (typeof GATES)[number];

/** What is measured on a part. */
export const QUANTITIES = [
  'diameter',
  'bore',
  'length',
  'depth',
  'clearance',
  'runout',
  'flatness',
  'gap',
  'taper',
  'ovality',
  'end-float',
  'free-length',
  'deflection',
  'torque',
  'pressure',
  'voltage',
  'resistance',
  'temperature',
  'tread',
  'mass',
  'count',
  'other',
] as const;
export type Quantity = (typeof QUANTITIES)[number];

/** What talk at the bench does. */
export const ACTS = [
  'finding',
  'stripped',
  'ordered',
  'sent',
  'promised',
  'back',
  'fitted',
  'tested',
  'agreed',
  'question',
  'note',
] as const;
export type Act = (typeof ACTS)[number];
