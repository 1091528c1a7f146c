import { runRestore } from './archive/run.js';

const { argv, env } = process;
const say = (line: string): void => console.log(line);
process.exitCode = await runRestore({ args: argv.slice(2), env, say, now: () => new Date() });
