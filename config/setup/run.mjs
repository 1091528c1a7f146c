// @ts-check
import { nodeTrouble } from './node-version.mjs';

const trouble = nodeTrouble(process.versions.node);
if (trouble !== null) {
  process.stderr.write(`${trouble}\n`);
  process.exit(1);
}
const { main } = await import('./main.mjs');
await main(process.argv.slice(2));
