// The command-line program: hands over arguments and machine, writes what came of it. Only wires.

import { runProgram } from './program';
import { nodeWorld } from './node-world';

/** A reader that stops reading (`foretick report … | head`) is no failure. */
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
});

runProgram(process.argv.slice(2), nodeWorld(__dirname)).then(({ complaint, exitCode, output }) => {
  process.exitCode = exitCode;
  process.stderr.write(complaint);
  process.stdout.write(output);
});
