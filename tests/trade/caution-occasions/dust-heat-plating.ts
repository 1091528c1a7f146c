import type { Work } from '../../../src/trade/cautions/load.js';

type Try = [part: string | null, more: Partial<Work>];
export type Occasions = Record<string, { given: Try[]; not: Try[] }>;

/** For each caution, bench talk that calls for it and bench talk near it that does not: common practice, no source. */
export const dustHeatAndPlating: Occasions = {
  'asbestos-linings': {
    given: [
      ['brake shoe', { conditions: ['glazed'], remedy: 'send-out', processes: ['reline'] }],
      ['brake drum', { conditions: ['scored'], remedy: 'send-out', processes: ['skim'] }],
      ['clutch plate', { conditions: ['burnt'], remedy: 'replace' }],
      ['brake plate', { act: 'stripped' }],
    ],
    not: [
      ['brake lever', { conditions: ['bent'], remedy: 'replace' }],
      ['brake cable', { conditions: ['perished'], remedy: 'replace' }],
      ['clutch lever', { remedy: 'send-out', processes: ['chrome'] }],
      ['brake shoe', { conditions: ['good'] }],
    ],
  },
  'asbestos-gaskets': {
    given: [
      ['cylinder head gasket', { remedy: 'replace' }],
      ['exhaust gasket', { act: 'stripped' }],
    ],
    not: [
      ['timing cover gasket', { remedy: 'replace' }],
      ['cylinder head', { remedy: 'clean' }],
      ['exhaust pipe', { remedy: 'send-out', processes: ['chrome'] }],
    ],
  },
  'blast-engine-parts': {
    given: [
      ['crankcase', { remedy: 'send-out', processes: ['vapour-blast'] }],
      ['cylinder head', { remedy: 'repair', processes: ['blast'] }],
    ],
    not: [
      ['frame', { remedy: 'send-out', processes: ['blast'] }],
      ['crankcase', { remedy: 'send-out', processes: ['weld'] }],
      ['mudguard', { remedy: 'send-out', processes: ['blast', 'paint'] }],
    ],
  },
  'blast-tank': {
    given: [
      ['petrol tank', { remedy: 'send-out', processes: ['blast', 'paint'] }],
      ['oil tank', { remedy: 'repair', processes: ['blast'] }],
    ],
    not: [
      ['petrol tank', { remedy: 'send-out', processes: ['paint'] }],
      ['tool box', { remedy: 'send-out', processes: ['blast'] }],
      ['petrol tank cap', { remedy: 'send-out', processes: ['chrome'] }],
    ],
  },
  silica: {
    given: [
      ['frame', { remedy: 'repair', processes: ['blast'] }],
      ['mudguard', { remedy: 'clean', processes: ['blast'] }],
    ],
    not: [
      ['frame', { remedy: 'send-out', processes: ['blast'] }],
      ['frame', { remedy: 'repair', processes: ['paint'] }],
      ['cylinder head', { remedy: 'send-out', processes: ['vapour-blast'] }],
    ],
  },
  'lead-paint': {
    given: [
      ['mudguard', { remedy: 'repair', processes: ['paint'] }],
      ['frame', { remedy: 'clean', conditions: ['flaking'] }],
      ['petrol tank', { remedy: 'repair', processes: ['blast'] }],
    ],
    not: [
      ['mudguard', { remedy: 'send-out', processes: ['paint'] }],
      ['wheel rim', { conditions: ['flaking'], remedy: 'send-out', processes: ['chrome'] }],
      ['piston', { remedy: 'clean' }],
    ],
  },
  polishing: {
    given: [
      ['timing cover', { remedy: 'repair', processes: ['polish'] }],
      ['primary chaincase', { remedy: 'clean', processes: ['polish'] }],
    ],
    not: [
      ['timing cover', { remedy: 'send-out', processes: ['polish'] }],
      ['timing cover', { remedy: 'clean' }],
      ['fork slider', { remedy: 'repair', processes: ['paint'] }],
    ],
  },
  'hot-work-tank': {
    given: [
      ['petrol tank', { remedy: 'send-out', processes: ['weld'] }],
      ['petrol tank', { remedy: 'repair', conditions: ['leaking'] }],
      ['oil tank', { remedy: 'repair', conditions: ['cracked'] }],
    ],
    not: [
      ['mudguard', { remedy: 'send-out', processes: ['weld', 'paint'] }],
      ['petrol tank', { remedy: 'send-out', processes: ['paint'] }],
      ['petrol tap', { remedy: 'repair', conditions: ['leaking'] }],
      ['tool box', { remedy: 'repair', processes: ['weld'] }],
    ],
  },
  'heat-cases': {
    given: [
      ['main bearing', { conditions: ['worn'], remedy: 'replace' }],
      ['valve guide', { conditions: ['worn'], remedy: 'replace' }],
    ],
    not: [
      ['big end bearing', { conditions: ['worn'], remedy: 'replace' }],
      ['piston', { remedy: 'replace' }],
      ['main bearing', { conditions: ['good'], remedy: 'keep' }],
    ],
  },
  'weld-degreased': {
    given: [
      ['frame lug', { remedy: 'repair', processes: ['weld'] }],
      ['mudguard', { remedy: 'repair', processes: ['weld'] }],
    ],
    not: [
      ['mudguard', { remedy: 'send-out', processes: ['weld'] }],
      ['mudguard', { remedy: 'repair', processes: ['straighten'] }],
      ['crankcase', { remedy: 'clean' }],
    ],
  },
  magnesium: {
    given: [
      ['brake plate', { remedy: 'send-out', processes: ['weld'] }],
      ['timing cover', { remedy: 'repair', processes: ['machine'] }],
    ],
    not: [
      ['brake plate', { remedy: 'send-out', processes: ['polish'] }],
      ['mudguard', { remedy: 'repair', processes: ['weld'] }],
      ['cylinder barrel', { remedy: 'send-out', processes: ['rebore'] }],
    ],
  },
  'safety-part-repair': {
    given: [
      ['fork stanchion', { conditions: ['bent'], remedy: 'send-out', processes: ['straighten'] }],
      ['frame', { conditions: ['cracked'], remedy: 'repair', processes: ['weld'] }],
    ],
    not: [
      ['footrest', { conditions: ['bent'], remedy: 'repair', processes: ['straighten'] }],
      ['mudguard', { remedy: 'repair', processes: ['straighten'] }],
      ['frame', { remedy: 'send-out', processes: ['powder-coat'] }],
    ],
  },
  'hydrogen-embrittlement': {
    given: [
      ['fork spring', { remedy: 'send-out', processes: ['zinc'] }],
      ['wheel spindle', { remedy: 'send-out', processes: ['chrome'] }],
      ['fork stanchion', { conditions: ['pitted'], remedy: 'send-out', processes: ['hard-chrome'] }],
      ['bolt', { remedy: 'send-out', processes: ['zinc'], conditions: ['rusty'] }],
    ],
    not: [
      ['wheel rim', { remedy: 'send-out', processes: ['chrome'] }],
      ['exhaust pipe', { remedy: 'send-out', processes: ['chrome'] }],
      ['fork spring', { remedy: 'replace', conditions: ['weak'] }],
      ['wheel spindle', { remedy: 'send-out', processes: ['regrind'] }],
    ],
  },
  'hexavalent-chromium': {
    given: [
      ['exhaust pipe', { remedy: 'repair', processes: ['chrome'] }],
      ['wheel rim', { remedy: 'clean', processes: ['strip-plating'] }],
    ],
    not: [
      ['wheel rim', { remedy: 'send-out', processes: ['chrome'] }],
      ['exhaust pipe', { remedy: 'clean' }],
      ['handlebar', { remedy: 'replace' }],
    ],
  },
  'cyanide-baths': {
    given: [
      ['bolt', { remedy: 'repair', processes: ['zinc'] }],
      ['brake lever', { remedy: 'repair', processes: ['nickel'] }],
    ],
    not: [
      ['bolt', { remedy: 'send-out', processes: ['zinc'] }],
      ['bolt', { remedy: 'replace' }],
      ['brake lever', { remedy: 'repair', processes: ['polish'] }],
    ],
  },
  cadmium: {
    given: [
      ['bolt', { remedy: 'repair', processes: ['blast'] }],
      ['spoke nipple', { remedy: 'clean', processes: ['polish'] }],
    ],
    not: [
      ['frame', { remedy: 'repair', processes: ['blast'] }],
      ['bolt', { remedy: 'replace' }],
      ['timing cover', { remedy: 'repair', processes: ['polish'] }],
    ],
  },
};
