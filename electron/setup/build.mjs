/**
 * `npm run build`: bundles window, page and recorder into `build/`. The command line runs from source, and so does the
 * recorder that it starts.
 */
import { createHash } from 'node:crypto';
import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { onPinnedNode } from './on-pinned-node.mjs';
import { buildFolder, projectFolder } from './places.mjs';

/** The oldest Electron that the bundles must run on is the fallback's: Chromium 130, Node 20. */
const PAGE_TARGET = 'chrome130';
const MAIN_TARGET = 'node20';
/** The recorder's libraries need this Node; Electron's own, or the pinned one. */
const RECORDER_TARGET = 'node22';
/** They find their compiled parts beside themselves, so they stay packages. */
export const RECORDER_PACKAGES = ['better-sqlite3', 'serialport', '@serialport/*'];

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

/**
 * The words of Spanish paper are as much text as half a program: a file of their own, read when the first such paper is
 * asked for. One beside each of the programs that ask, since the recorder lies outside the archive file of a package.
 * @type {import('esbuild').Plugin}
 */
const spanishPaperBeside = {
  name: 'spanish-paper-beside',
  setup(esbuild) {
    esbuild.onResolve({ filter: /\/spanish-paper\.ts$/ }, ({ kind }) =>
      kind === 'dynamic-import' ? { path: './spanish-paper.cjs', external: true } : undefined,
    );
  },
};

/** Said where something was. */
export const BUILT = 'Built the window into build/.';

/** @returns {Promise<boolean>} whether anything in `build/` is another than before */
export async function build() {
  const esbuild = await import('esbuild');
  /** @type {import('esbuild').BuildOptions} */
  const shared = {
    bundle: true,
    absWorkingDir: projectFolder,
    sourcemap: true,
    legalComments: 'linked',
    logLevel: 'warning',
    minify: true,
    plugins: [zodInEnglish, spanishPaperBeside],
    define: { 'process.env.NODE_ENV': '"production"' },
    write: false,
  };
  for (const room of ['renderer', 'recorder', 'paper-fonts'])
    await mkdir(join(buildFolder, room), { recursive: true });
  const [page, ...programs] = await Promise.all([
    esbuild.build({
      ...shared,
      entryPoints: { main: 'renderer/main.tsx', camera: 'renderer/camera/camera.tsx' },
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
    esbuild.build({
      ...shared,
      entryPoints: {
        main: 'electron/main/main.ts',
        preload: 'electron/preload/preload.ts',
        'camera-preload': 'electron/preload/camera-preload.ts',
        'the-rest': 'electron/main/the-rest.ts',
        'spanish-paper': 'core/words/es/spanish-paper.ts',
      },
      outdir: buildFolder,
      outExtension: { '.js': '.cjs' },
      platform: 'node',
      format: 'cjs',
      target: MAIN_TARGET,
      external: ['electron'],
      // What is read together with what was kept of it (read-compiled.ts) can require, not import.
      supported: { 'dynamic-import': false },
      // CommonJS has no import.meta; the build folder stands in for the source's.
      define: { ...shared.define, 'import.meta.url': 'undefined', 'import.meta.main': 'false' },
    }),
    esbuild.build({
      ...shared,
      entryPoints: {
        main: 'electron/recorder/main.ts',
        'run-recorder': 'electron/recorder/run-recorder.ts',
        'archive-thread': 'electron/recorder/archive-thread.ts',
        'backup-check-thread': 'electron/recorder/backup-check-thread.ts',
        'evaluation-thread': 'electron/recorder/evaluation-thread.ts',
        'learn-thread': 'electron/recorder/learn-thread.ts',
        'self-check-thread': 'electron/recorder/self-check-thread.ts',
        'split-thread': 'electron/recorder/split-thread.ts',
        'spanish-paper': 'core/words/es/spanish-paper.ts',
      },
      outdir: join(buildFolder, 'recorder'),
      outExtension: { '.js': '.cjs' },
      platform: 'node',
      // Node's way with modules of the newer kind looks through every library of the older one for its names, and puts a
      // face of that kind on each of its own parts: a quarter of the time that a recorder takes until it answers.
      format: 'cjs',
      target: RECORDER_TARGET,
      external: RECORDER_PACKAGES,
      define: { ...shared.define, 'import.meta.url': 'gaugemarkBundle', 'import.meta.main': 'false' },
      banner: { js: "const gaugemarkBundle = require('node:url').pathToFileURL(__filename).href;" },
    }),
  ]);
  return isAny([
    writePage(page.outputFiles ?? []),
    putAll(programs.flatMap(({ outputFiles }) => outputFiles ?? [])),
    copyPaperFonts(),
    copy(join(projectFolder, 'renderer', 'camera.html'), join(buildFolder, 'renderer', 'camera.html')),
  ]);
}

/** @param {readonly import('esbuild').OutputFile[]} files */
const putAll = async (files) => isAny(files.map(({ path, contents }) => put(path, contents)));

/**
 * @param {readonly Promise<boolean>[]} all
 * @returns {Promise<boolean>} whether one of them is so, once all are done
 */
const isAny = async (all) => (await Promise.all(all)).includes(true);

/**
 * All styles stand in the document itself, those of the first picture before the others: each file that is asked for goes by
 * way of the window's process, which at a start has other things to do. The policy names that one style by its hash. The
 * page's types are asked for with the document: nothing is written before they are there.
 * @param {readonly import('esbuild').OutputFile[]} made
 */
async function writePage(made) {
  const read = (/** @type {string} */ name) => readFile(join(projectFolder, 'renderer', name), 'utf8');
  const [document, first] = await Promise.all([read('index.html'), read('first.css')]);
  const inDocument = made.filter(({ path }) => /^main\.css(\.map)?$/.test(basename(path)));
  const files = made.filter((file) => !inDocument.includes(file));
  const isNew = await putAll(files);
  const rest = inDocument.find(({ path }) => path.endsWith('.css'))?.text ?? '';
  const style = `${first}${rest.replace(/\/\*# sourceMappingURL=.*\*\/\s*$/, '')}`;
  const hash = createHash('sha256').update(style).digest('base64');
  const types = files
    .map(({ path }) => basename(path))
    .filter((name) => name.endsWith('.woff2'))
    .map((name) => `<link rel="preload" href="${name}" as="font" type="font/woff2" crossorigin />`);
  const whole = document
    .replace('<link rel="stylesheet" href="styles" />', () => `<style>${style}</style>`)
    .replace('<link rel="preload" href="types" as="font" />', types.join('\n    '))
    .replace('%first-style%', () => `'sha256-${hash}'`);
  const isOther = await put(join(buildFolder, 'renderer', 'index.html'), Buffer.from(whole));
  return isNew || isOther;
}

/** The window's process prints certificates and has only the build folder to read fonts from. */
async function copyPaperFonts() {
  const from = join(projectFolder, 'node_modules/@fontsource/atkinson-hyperlegible/files');
  const to = join(buildFolder, 'paper-fonts');
  const names = ['latin', 'latin-ext'].flatMap((subset) =>
    [400, 700].map((weight) => `atkinson-hyperlegible-${subset}-${weight}-normal.woff2`),
  );
  return isAny(names.map((name) => copy(join(from, name), join(to, name))));
}

/** @param {string} from @param {string} to */
const copy = async (from, to) => put(to, await readFile(from));

/**
 * What is there already is left alone, and what is new takes its place in one go: a window or a recorder may be starting
 * from it, since whoever prints from the command line builds first.
 * @param {string} path
 * @param {Uint8Array} contents
 * @returns {Promise<boolean>} whether it was another
 */
async function put(path, contents) {
  const present = await readFile(path).catch(() => null);
  if (present?.equals(contents) === true) return false;
  const part = `${path}.part-${String(process.pid)}`;
  await writeFile(part, contents);
  await rename(part, path);
  return true;
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await onPinnedNode({
    script: import.meta.url,
    work: async (say) => {
      say((await build()) ? BUILT : 'What is in build/ is what the sources give.');
      return 0;
    },
  });
}
