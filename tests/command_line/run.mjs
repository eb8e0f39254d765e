// One group of command-line tests: node run.mjs GROUP PROGRAM...   (PROGRAM may be: node driftbench.js)
import { make_group } from './program.mjs';

const [name, ...command] = process.argv.slice(2);
const { test } = await import(`./${name}.mjs`);
const group = make_group(command);
await test(group);
process.exitCode = group.finish(`command_line.${name}`);
