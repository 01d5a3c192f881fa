/** A readout profile, or rules to begin one's own from, as a file that people can hand on: asked where, written whole. */
import { app, type BrowserWindow } from 'electron';
import { mkdirSync } from 'node:fs';
import { homedir } from 'node:os';
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import type { Answer } from '../../core/contract/message.ts';
import { writeWholeBytes } from '../exports/whole-bytes.ts';
import { usualRulesFolder } from '../rules/rules-folder-place.ts';
import { chooseSavePath } from './dialogs.ts';
import { notWritten } from './file-not-written.ts';

/** @param ownRules the folder of own rules that the settings name; null for the usual one */
export async function saveSheet(
  window: BrowserWindow,
  asked: PageRequestOf<'window.save-sheet'>,
  ownRules: string | null,
): Promise<Answer<PageReplyOf<'window.save-sheet'>>> {
  const isProfile = asked.kind === 'profile';
  const path = await chooseSavePath(window, {
    kind: asked.kind,
    suggestedName: `${asked.suggestedName}.json`,
    folder: isProfile ? app.getPath('documents') : rulesFolderThere(ownRules),
  });
  if (path === null) return { ok: true, value: { path: null } };
  const text = `${JSON.stringify(isProfile ? asked.profile : asked.pack, null, 2)}\n`;
  try {
    const bytes = new TextEncoder().encode(text);
    await writeWholeBytes({ path, bytes, what: isProfile ? 'readout profile' : 'rule pack', replace: true });
  } catch (error) {
    return { ok: false, fault: notWritten(error, path, 'sheet-not-written') };
  }
  return { ok: true, value: { path } };
}

/** The usual one is there only once something was put into it: made, so that the dialog begins where files are read. */
function rulesFolderThere(named: string | null): string {
  if (named !== null) return named;
  const folder = usualRulesFolder({
    platform: process.platform,
    home: homedir(),
    environment: process.env,
  });
  try {
    mkdirSync(folder, { recursive: true });
    return folder;
  } catch {
    return app.getPath('documents');
  }
}
