import type { Occasions } from './dust-heat-plating.js';

/** Likewise for liquids, springs, wheels and running; common practice, no source. */
export const liquidsWheelsAndRunning: Occasions = {
  petrol: {
    given: [
      ['petrol tap', { conditions: ['leaking'] }],
      ['carburettor', { act: 'stripped' }],
      ['petrol pipe', { conditions: ['perished'], remedy: 'replace' }],
    ],
    not: [
      ['oil pipe', { conditions: ['leaking'] }],
      ['petrol tank', { remedy: 'send-out', processes: ['paint'] }],
      ['carburettor', { conditions: ['worn'], remedy: 'send-out', processes: ['rebuild'] }],
      ['fork seal', { conditions: ['leaking'] }],
    ],
  },
  solvents: {
    given: [
      ['crankcase', { conditions: ['dirty'], remedy: 'clean' }],
      ['chain', { remedy: 'clean' }],
      ['carburettor', { remedy: 'clean', processes: ['ultrasonic-clean'] }],
    ],
    not: [
      ['exhaust pipe', { remedy: 'clean' }],
      ['crankcase', { remedy: 'send-out', processes: ['vapour-blast'] }],
      ['headlamp glass', { remedy: 'clean' }],
    ],
  },
  'tank-lining': {
    given: [
      ['petrol tank', { remedy: 'repair', processes: ['line-tank'] }],
      ['oil tank', { remedy: 'repair', processes: ['line-tank'] }],
    ],
    not: [
      ['petrol tank', { remedy: 'send-out', processes: ['line-tank'] }],
      ['brake shoe', { remedy: 'repair', processes: ['reline'] }],
      ['petrol tank', { conditions: ['rusty'], remedy: 'check' }],
    ],
  },
  isocyanate: {
    given: [
      ['frame', { remedy: 'repair', processes: ['paint'] }],
      ['petrol tank', { remedy: 'repair', processes: ['lacquer'] }],
    ],
    not: [
      ['frame', { remedy: 'send-out', processes: ['paint'] }],
      ['frame', { remedy: 'send-out', processes: ['powder-coat'] }],
      ['petrol tank', { remedy: 'repair', processes: ['transfer'] }],
    ],
  },
  'battery-charging': {
    given: [
      ['battery', { conditions: ['weak'], remedy: 'check' }],
      ['battery cell', { conditions: ['leaking'] }],
    ],
    not: [
      ['capacitor pack', { remedy: 'replace' }],
      ['battery strap', { conditions: ['perished'], remedy: 'replace' }],
      ['dynamo', { remedy: 'send-out', processes: ['rewind'] }],
    ],
  },
  'compressed-air': {
    given: [
      ['oilway', { remedy: 'clean' }],
      ['pilot jet', { remedy: 'clean' }],
    ],
    not: [
      ['tyre', { remedy: 'replace' }],
      ['mudguard', { remedy: 'clean' }],
      ['carburettor', { remedy: 'replace' }],
    ],
  },
  springs: {
    given: [
      ['sprung hub', { act: 'stripped' }],
      ['shock absorber', { conditions: ['leaking'], remedy: 'replace' }],
      ['girder fork spring', { conditions: ['weak'], remedy: 'replace' }],
    ],
    not: [
      ['contact breaker spring', { conditions: ['weak'], remedy: 'replace' }],
      ['fork seal', { conditions: ['leaking'], remedy: 'replace' }],
      ['saddle spring', { remedy: 'send-out', processes: ['chrome'] }],
    ],
  },
  lifting: {
    given: [
      ['engine', { act: 'stripped' }],
      ['engine', { act: 'fitted' }],
      ['gearbox', { act: 'fitted' }],
    ],
    not: [
      ['engine', { conditions: ['seized'] }],
      ['engine mounting bolt', { act: 'fitted' }],
      ['mudguard', { act: 'stripped' }],
    ],
  },
  tyres: {
    given: [
      ['tyre', { conditions: ['perished'], remedy: 'replace' }],
      ['inner tube', { act: 'fitted' }],
      ['tyre', { conditions: ['worn'] }],
    ],
    not: [
      ['rim tape', { conditions: ['perished'], remedy: 'replace' }],
      ['wheel rim', { conditions: ['rusty'] }],
      ['tyre', { act: 'ordered' }],
    ],
  },
  'wheel-building': {
    given: [
      ['wheel', { remedy: 'send-out', processes: ['wheel-build'] }],
      ['spoke', { conditions: ['rusty'], remedy: 'replace' }],
    ],
    not: [
      ['wheel bearing', { remedy: 'replace' }],
      ['wheel rim', { remedy: 'send-out', processes: ['chrome'] }],
      ['tyre', { remedy: 'replace' }],
    ],
  },
  'road-test': {
    given: [
      [null, { act: 'tested' }],
      ['brake', { act: 'tested' }],
    ],
    not: [
      ['dynamo', { act: 'tested' }],
      ['brake shoe', { act: 'fitted' }],
      [null, { act: 'note' }],
    ],
  },
  'running-indoors': {
    given: [
      ['engine', { act: 'tested' }],
      ['carburettor', { act: 'tested' }],
    ],
    not: [
      ['headlamp', { act: 'tested' }],
      ['engine', { act: 'fitted' }],
      ['carburettor', { remedy: 'clean' }],
    ],
  },
  'high-tension': {
    given: [
      ['magneto', { act: 'tested' }],
      ['ignition coil', { conditions: ['weak'], remedy: 'check' }],
    ],
    not: [
      ['magneto', { remedy: 'send-out', processes: ['rewind'] }],
      ['headlamp bulb', { act: 'tested' }],
      ['spark plug', { remedy: 'replace' }],
    ],
  },
};
