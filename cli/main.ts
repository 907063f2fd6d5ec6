#!/usr/bin/env node
/** The command: arguments in, an exit code out. */
import { run } from './run.js';

// Whoever reads our output may stop before its end, `head` for one; that is no fault.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });
}

// A cook who has this set wants nothing of Ink, which would look for its inspector.
delete process.env.DEV;

process.exitCode = await run(process.argv.slice(2), process);
