/** `npm run build`: bundles what runs inside Electron into `build/`. The recorder and the command line run from source. */
import { copyFile, mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onPinnedNode } from './on-pinned-node.mjs';
import { buildFolder, projectFolder } from './places.mjs';

/** The oldest Electron that the bundles must run on is the fallback's: Chromium 130, Node 20. */
const PAGE_TARGET = 'chrome130';
const MAIN_TARGET = 'node20';

/**
 * The schema library brings its messages in some fifty languages; read at every start, for nothing.
 * @type {import('esbuild').Plugin}
 */
const zodInEnglish = {
  name: 'zod-in-english',
  setup(esbuild) {
    esbuild.onLoad({ filter: /zod[\\/]v4[\\/]locales[\\/]index\.js$/ }, () => ({
      contents: "export { default as en } from './en.js';",
    }));
  },
};

/** @param {(line: string) => void} say */
export async function build(say) {
  const esbuild = await import('esbuild');
  /** @type {import('esbuild').BuildOptions} */
  const shared = {
    bundle: true,
    absWorkingDir: projectFolder,
    sourcemap: true,
    legalComments: 'linked',
    logLevel: 'warning',
    minify: true,
    plugins: [zodInEnglish],
    define: { 'process.env.NODE_ENV': '"production"' },
  };
  await mkdir(join(buildFolder, 'renderer'), { recursive: true });
  await Promise.all([
    esbuild.build({
      ...shared,
      entryPoints: {
        main: 'electron/main/main.ts',
        preload: 'electron/preload/preload.ts',
        'detached-start': 'electron/main/detached-start.ts',
      },
      outdir: buildFolder,
      outExtension: { '.js': '.cjs' },
      platform: 'node',
      format: 'cjs',
      target: MAIN_TARGET,
      external: ['electron'],
      // CommonJS has no import.meta; the build folder stands in for the source's.
      define: { ...shared.define, 'import.meta.url': 'undefined', 'import.meta.main': 'false' },
    }),
    esbuild.build({
      ...shared,
      entryPoints: { main: 'renderer/main.tsx' },
      outdir: join(buildFolder, 'renderer'),
      platform: 'browser',
      format: 'iife',
      target: PAGE_TARGET,
      // The page may not evaluate text, so the schema library need not try.
      banner: { js: '(globalThis.__zod_globalConfig ??= {}).jitless = true;' },
      jsx: 'automatic',
      jsxImportSource: 'preact',
      loader: { '.woff2': 'file', '.woff': 'file', '.svg': 'file', '.png': 'file' },
      assetNames: '[name]-[hash]',
    }),
    copyPaperFonts(),
    copyFile(join(projectFolder, 'renderer/index.html'), join(buildFolder, 'renderer/index.html')),
  ]);
  say('Built the window into build/.');
}

/** The window's process prints certificates and has only the build folder to read fonts from. */
async function copyPaperFonts() {
  const from = join(projectFolder, 'node_modules/@fontsource/atkinson-hyperlegible/files');
  const to = join(buildFolder, 'paper-fonts');
  await mkdir(to, { recursive: true });
  const names = ['latin', 'latin-ext'].flatMap((subset) =>
    [400, 700].map((weight) => `atkinson-hyperlegible-${subset}-${weight}-normal.woff2`),
  );
  await Promise.all(names.map((name) => copyFile(join(from, name), join(to, name))));
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await onPinnedNode({
    script: import.meta.url,
    work: async (say) => {
      await build(say);
      return 0;
    },
  });
}
