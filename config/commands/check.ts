import { runCheck } from './archive/check.js';

const { argv, env } = process;
const say = (line: string): void => console.log(line);
process.exitCode = await runCheck({ args: argv.slice(2), env, say });
