import { parseArgs } from 'node:util';
import { yearText } from '../year/print.js';
import { playYear } from '../year/run.js';

const { values } = parseArgs({
  options: {
    seed: { type: 'string', default: '1' },
    jobs: { type: 'string', default: '25' },
    suppliers: { type: 'string', default: '30' },
    days: { type: 'string', default: '365' },
    // The chance that something is killed after a message was said.
    kills: { type: 'string', default: '0.005' },
  },
});

const options = {
  seed: Number(values.seed),
  jobs: Number(values.jobs),
  suppliers: Number(values.suppliers),
  days: Number(values.days),
};
const kills = Number(values.kills);
const faulty = Object.entries(options).find(([, value]) => !Number.isInteger(value) || value < 1);
if (!(kills >= 0 && kills <= 1)) {
  process.stderr.write('--kills takes a chance from 0 to 1.\n');
  process.exitCode = 2;
} else if (faulty) {
  process.stderr.write(`--${faulty[0]} takes a whole number from 1 on.\n`);
  process.exitCode = 2;
} else {
  const began = performance.now();
  const { count, breach } = await playYear({ ...options, kills });
  process.stdout.write(yearText({ ...options, kills }, count, breach, (performance.now() - began) / 1000));
  process.exitCode = breach === null ? 0 : 1;
}
