/**
 * Once before tests that start the command line: the same source in one file, with the bundled threads. From source each
 * start reads hundreds of files, a second of the processor, and its threads read them again. Nothing that is shipped is
 * made of it, so it lies beside the build.
 */
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { RECORDER_PACKAGES } from '../../../electron/setup/build.mjs';
import { COMMAND_LINE_PROGRAM } from './command-line-program.ts';

const REQUIRE =
  "import { createRequire as requireBeside } from 'node:module'; const require = requireBeside(import.meta.url);";

export default async function bundleCommandLine(): Promise<void> {
  await build({
    entryPoints: [fileURLToPath(new URL('../../../electron/command-line/main.ts', import.meta.url))],
    outfile: COMMAND_LINE_PROGRAM,
    bundle: true,
    platform: 'node',
    format: 'esm',
    target: 'node24',
    logLevel: 'warning',
    external: RECORDER_PACKAGES,
    // Libraries of the older kind ask for their parts.
    banner: { js: REQUIRE },
    plugins: [
      {
        name: 'beside-the-source',
        setup(bundling) {
          // They find the project's folders, and run by themselves, by where they lie.
          bundling.onResolve({ filter: /\/setup\/[^/]+\.mjs$/ }, ({ path, resolveDir }) => ({
            path: fileURLToPath(new URL(path, `file://${resolveDir}/`)),
            external: true,
          }));
          bundling.onResolve({ filter: /^\.\/thread-file\.ts$/ }, () => ({
            path: fileURLToPath(new URL('bundled-threads.ts', import.meta.url)),
          }));
        },
      },
    ],
  });
}
