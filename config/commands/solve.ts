import { readFileSync } from 'node:fs';
import { runSolve } from './solve/run.js';

process.exitCode = runSolve({
  args: process.argv.slice(2),
  read: (file) => readFileSync(file, 'utf8'),
  say: (line) => console.log(line),
  complain: (line) => console.error(line),
  clock: () => performance.now(),
});
