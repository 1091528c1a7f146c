import { parseArgs } from 'node:util';
import { runDemo } from '../demo/run.js';

const { values } = parseArgs({
  options: {
    stay: { type: 'boolean', default: false },
    'from-start': { type: 'boolean', default: false },
    folder: { type: 'string' },
    json: { type: 'string' },
  },
});

process.exitCode = await runDemo({
  stay: values.stay || values['from-start'],
  fromStart: values['from-start'],
  ...(values.folder === undefined ? {} : { folder: values.folder }),
  ...(values.json === undefined ? {} : { json: values.json }),
});
