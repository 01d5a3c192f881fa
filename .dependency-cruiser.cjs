/** The import rule of the rooms (DEVELOPERS.md, "Rooms"): who may import whom. */
module.exports = {
  forbidden: [
    {
      name: 'core-stands-alone',
      comment: 'core is pure: it imports nothing of the other rooms',
      severity: 'error',
      from: { path: '^core/' },
      to: { path: '^(drivers|electron|renderer|tests)/' },
    },
    {
      name: 'core-is-pure',
      comment: 'no I/O and no clock in core; core/archive alone has a disk',
      severity: 'error',
      from: { path: '^core/', pathNot: '^core/archive/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'core-libraries',
      comment: 'pure core uses zod, fraction.js and itself; anything more is a decision to write down',
      severity: 'error',
      from: { path: '^core/', pathNot: '^core/archive/' },
      to: { path: 'node_modules', pathNot: 'node_modules/(zod|fraction\\.js)/' },
    },
    {
      name: 'only-archive-has-the-database',
      severity: 'error',
      from: { pathNot: '^(core/archive|tests)/' },
      to: { path: 'node_modules/better-sqlite3' },
    },
    {
      name: 'pure-core-leaves-the-archive-alone',
      severity: 'error',
      from: { path: '^core/', pathNot: '^core/archive/' },
      to: { path: '^core/archive/' },
    },
    {
      name: 'drivers-import-core-only',
      severity: 'error',
      from: { path: '^drivers/' },
      to: { path: '^(electron|renderer|tests|core/archive)/' },
    },
    {
      name: 'renderer-knows-the-bridge-and-pure-core',
      severity: 'error',
      from: { path: '^renderer/' },
      to: { path: '^(electron|drivers|tests|core/archive)/' },
    },
    {
      name: 'renderer-has-no-node',
      severity: 'error',
      from: { path: '^renderer/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'main-holds-no-native-module',
      comment: 'the window processes load neither the database nor the serial binding',
      severity: 'error',
      from: { path: '^electron/(main|preload)/' },
      to: {
        path: 'node_modules/(better-sqlite3|serialport|@serialport)|^core/archive/|^drivers/',
        // Where the archive lies by default is arithmetic on texts; a file that is put in place, or whose first bytes are looked at, needs no database.
        pathNot:
          '^core/archive/(place|rename-when-free|sync-folder|discard-part|left-parts|network-share|disk-trouble|file-head)\\.ts$',
        reachable: true,
      },
    },
    { name: 'no-circular', severity: 'error', from: {}, to: { circular: true } },
    { name: 'nothing-unresolved', severity: 'error', from: {}, to: { couldNotResolve: true } },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    tsPreCompilationDeps: true,
    tsConfig: { fileName: 'tsconfig.json' },
    enhancedResolveOptions: {
      extensions: ['.ts', '.tsx', '.mjs', '.js', '.json'],
      exportsFields: ['exports'],
      conditionNames: ['import', 'node', 'default', 'types'],
    },
  },
};
