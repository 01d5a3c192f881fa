import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import {
  builderConfiguration,
  FUSES,
  MAC_ENTITLEMENTS,
  UNPACKED,
} from '../../../electron/packaging/builder-configuration.mjs';
import {
  billOfMaterials,
  licencesText,
  shippedLibraries,
} from '../../../electron/packaging/shipped-libraries.mjs';
import {
  isLeftOut,
  lackingIn,
  layOutProgram,
  packagesStayingPackages,
  PROGRAM_FILES,
} from '../../../electron/packaging/staged-program.mjs';
import { build } from '../../../electron/setup/build.mjs';
import { buildFolder, projectFolder } from '../../../electron/setup/places.mjs';

const textOf = (name: string): string => readFileSync(join(projectFolder, name), 'utf8');
const filesIn = (folder: string): string[] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(folder.length + 1));

const configuration = builderConfiguration({
  staged: '/staged',
  output: '/out',
  electronFolder: '/electron',
  electronVersion: '0.0.0',
});

describe('the program as it is packed', () => {
  const folder = mkdtempSync(join(tmpdir(), 'gaugemark-packaging-'));
  beforeAll(async () => {
    if (PROGRAM_FILES.some((name) => !existsSync(join(projectFolder, name)))) await build();
    await layOutProgram(folder, { platform: 'linux', arch: 'x64' });
  }, 120_000);
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('lacks nothing', async () => {
    expect(await lackingIn(folder)).toEqual([]);
  });

  it('says what it lacks', async () => {
    rmSync(join(folder, 'build', 'preload.cjs'));
    rmSync(join(folder, 'beside', 'LICENSE'));
    expect(await lackingIn(folder)).toEqual(['build/preload.cjs', 'beside/LICENSE']);
  });

  it('holds every file that the build makes, without the maps', () => {
    const built = filesIn(buildFolder).filter((name) => !name.endsWith('.map') && name !== 'preload.cjs');
    expect(filesIn(join(folder, 'build'))).toEqual(expect.arrayContaining(built));
    expect(filesIn(join(folder, 'build')).filter((name) => name.endsWith('.map'))).toEqual([]);
  });

  it('names every script that the window loads before a page', () => {
    const preloads = readdirSync(join(projectFolder, 'electron/preload')).filter((name) =>
      name.endsWith('preload.ts'),
    );
    expect(preloads.length).toBeGreaterThan(0);
    for (const name of preloads) expect(PROGRAM_FILES).toContain(`build/${name.replace(/\.ts$/, '.cjs')}`);
  });

  it('holds every thread that the recorder starts', () => {
    const started = readdirSync(join(projectFolder, 'electron/recorder')).filter((name) =>
      /(?<!answer-of)-thread\.ts$/.test(name),
    );
    expect(started.length).toBeGreaterThan(2);
    for (const name of started)
      expect(PROGRAM_FILES).toContain(`build/recorder/${name.replace(/\.ts$/, '.cjs')}`);
  });

  it('holds the compiled parts for its system, and for no other', () => {
    const compiled = filesIn(folder).filter((name) => name.endsWith('.node'));
    expect(compiled).toEqual(
      expect.arrayContaining([
        'node_modules/better-sqlite3/prebuilds/linux-x64.node',
        'node_modules/@serialport/bindings-cpp/prebuilds/linux-x64/@serialport+bindings-cpp.glibc.node',
      ]),
    );
    expect(compiled.filter((name) => !/linux(?:musl)?-x64/.test(name))).toEqual([]);
    const system = { platform: 'darwin', arch: 'arm64' } as const;
    const left = (name: string): boolean => isLeftOut(`x/bindings-cpp/prebuilds/${name}`, system);
    expect(['darwin-x64+arm64', 'win32-x64', 'linux-arm64'].map(left)).toEqual([false, true, true]);
  });

  it('holds every library with a compiled part that the program depends on (P11)', () => {
    const withCompiled = shippedLibraries()
      .map(({ name }) => name)
      .filter((name) => existsSync(join(projectFolder, 'node_modules', name, 'prebuilds')));
    expect(withCompiled).toEqual(['@serialport/bindings-cpp', 'better-sqlite3']);
    expect(packagesStayingPackages()).toEqual(expect.arrayContaining(withCompiled));
  });
});

describe('what the packager is told', () => {
  it('leaves unpacked what another process than the window loads', () => {
    expect(UNPACKED).toEqual(['build/recorder/**', 'node_modules/**']);
    expect(configuration['asar']).toBe(true);
  });

  // Electron's documentation of fuses, "Fuses" tutorial: what each allows.
  it('sets the fuses: nothing from outside makes another program of it', () => {
    expect(FUSES).toMatchObject({
      enableNodeOptionsEnvironmentVariable: false,
      enableNodeCliInspectArguments: false,
      onlyLoadAppFromAsar: true,
      enableEmbeddedAsarIntegrityValidation: true,
      grantFileProtocolExtraPrivileges: false,
      enableCookieEncryption: true,
    });
    // The recorder outlives the window as a Node process of its own.
    expect(FUSES.runAsNode).toBe(true);
  });

  it('names targets for every system, and runs no script of ours at installing or removing', () => {
    expect(configuration).toMatchObject({
      linux: { target: ['deb', 'AppImage'] },
      win: { target: ['nsis'] },
      mac: {
        target: ['dmg', 'zip'],
        hardenedRuntime: true,
        entitlements: MAC_ENTITLEMENTS,
        // Apple, "Requesting authorization to capture and save media" (from memory): reason and entitlement, both.
        extendInfo: { NSCameraUsageDescription: expect.stringMatching(/photo/) as string },
      },
      nsis: { deleteAppDataOnUninstall: false },
    });
    const entitlements = readFileSync(MAC_ENTITLEMENTS, 'utf8');
    expect(entitlements).toContain('com.apple.security.device.camera');
    expect(entitlements).not.toContain('audio-input');
    expect(JSON.stringify(configuration)).not.toMatch(/afterRemove|afterInstall|"include"|"script"/);
  });
});

describe('what others wrote', () => {
  it('stands with its licence and text, under licences that let it be handed on', () => {
    const libraries = shippedLibraries();
    expect(libraries.length).toBeGreaterThan(20);
    for (const { name, licence } of libraries)
      expect(['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', 'Apache-2.0', 'OFL-1.1'], name).toContain(
        licence,
      );
    const text = licencesText();
    for (const { name, version } of libraries) expect(text).toContain(`${name} ${version}\n`);
  });

  it('stands in the bill of materials, all of it and nothing else, with Electron', async () => {
    const bill = z
      .object({ components: z.array(z.object({ name: z.string(), version: z.string(), purl: z.string() })) })
      .parse(JSON.parse(await billOfMaterials()));
    const named = bill.components.map(({ purl }) => decodeURIComponent(purl));
    const purl = ({ name, version }: { name: string; version: string }): string =>
      `pkg:npm/${name}@${version}`;
    const electron = named.filter((one) => one.startsWith('pkg:npm/electron@'));
    expect(electron).toHaveLength(1);
    expect(named.filter((one) => one !== electron[0]).sort()).toEqual(shippedLibraries().map(purl).sort());
  });

  it('is pinned exactly', () => {
    const manifest = z.object({
      dependencies: z.record(z.string(), z.string()).default({}),
      devDependencies: z.record(z.string(), z.string()).default({}),
    });
    for (const name of ['package.json', 'electron/packaging/packager/package.json']) {
      const { dependencies, devDependencies } = manifest.parse(JSON.parse(textOf(name)));
      for (const [library, version] of Object.entries({ ...dependencies, ...devDependencies }))
        expect(version, library).toMatch(/^(?:npm:[a-z-]+@)?\d+\.\d+\.\d+$/);
    }
  });
});
