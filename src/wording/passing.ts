import type { Gate } from '../trade/terms.js';
import type { Button } from './answer.js';

const LABELS: Readonly<Record<Gate, string>> = {
  stripped: 'All stripped',
  inspected: 'All inspected',
  'parts-ordered': 'All parts ordered',
  'sublet-out': 'All sent out',
  reassembled: 'All built up',
  'road-tested': 'Road test done',
};

/** One tap to pass a gate that nothing blocks. */
export function passButton(job: string, gate: Gate): Button {
  return { label: LABELS[gate], action: { do: 'pass-gate', job, gate } };
}
