/** What electron-builder is told: names, targets, fuses, what lies inside the archive file and what beside it. */
import { join } from 'node:path';

/** The camera is one of them: a hardened program is given none otherwise. */
export const MAC_ENTITLEMENTS = join(import.meta.dirname, 'mac-entitlements.plist');

export const APP_ID = 'org.gaugemark.Gaugemark';

/**
 * Loaded by other processes than main and page, and by the system's own loader, so not from within the archive file:
 * the recorder, and libraries with compiled parts.
 */
export const UNPACKED = ['build/recorder/**', 'node_modules/**'];

/**
 * electron.org's list of fuses. `runAsNode` stays on: the recorder must outlive window and main, which only a Node process
 * of its own does (a utility process ends with main). What could make one of it from outside is off.
 */
export const FUSES = {
  runAsNode: true,
  enableCookieEncryption: true,
  enableNodeOptionsEnvironmentVariable: false,
  enableNodeCliInspectArguments: false,
  enableEmbeddedAsarIntegrityValidation: true,
  onlyLoadAppFromAsar: true,
  loadBrowserProcessSpecificV8Snapshot: false,
  grantFileProtocolExtraPrivileges: false,
};

/**
 * @param {object} options
 * @param {string} options.staged folder in which the program was laid out
 * @param {string} options.output where the packages go
 * @param {string} options.electronFolder a whole Electron
 * @param {string} options.electronVersion
 * @returns {import('./packager.mjs').BuilderConfiguration}
 */
export function builderConfiguration({ staged, output, electronFolder, electronVersion }) {
  return {
    appId: APP_ID,
    productName: 'Gaugemark',
    artifactName: 'gaugemark-${version}-${os}-${arch}.${ext}',
    directories: { app: staged, output },
    electronDist: electronFolder,
    electronVersion,
    electronFuses: FUSES,
    // The libraries bring compiled parts for every system; nothing is compiled anew.
    npmRebuild: false,
    nodeGypRebuild: false,
    publish: null,
    files: ['**/*'],
    asar: true,
    asarUnpack: UNPACKED,
    extraFiles: [{ from: join(staged, 'beside'), to: '.' }],
    // No scripts of our own run at installing or removing: what a person recorded is theirs and stays.
    linux: {
      target: ['deb', 'AppImage'],
      executableName: 'gaugemark',
      category: 'Science',
      synopsis: 'Records and judges pulls of welded tensile specimens',
      description:
        'Listens to the readout of a tensile test frame, records the whole curve, computes and judges the results and keeps them.',
      maintainer: 'Gaugemark maintainers <maintainers@gaugemark.invalid>',
    },
    deb: { packageCategory: 'science', priority: 'optional' },
    win: { target: ['nsis'] },
    nsis: { oneClick: false, perMachine: false, deleteAppDataOnUninstall: false },
    mac: {
      target: ['dmg', 'zip'],
      category: 'public.app-category.utilities',
      hardenedRuntime: true,
      entitlements: MAC_ENTITLEMENTS,
      entitlementsInherit: MAC_ENTITLEMENTS,
      // Without these words the system ends a program that asks for a camera.
      extendInfo: { NSCameraUsageDescription: 'Takes a photo of a broken specimen when you ask for one.' },
    },
  };
}
