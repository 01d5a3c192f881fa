/** The list of archives that are looked through beside the open one; the files themselves are only read. */
import type { PageReplyOf, PageRequestOf } from '../../core/contract/bridge.ts';
import { OTHER_ARCHIVES_MAX } from '../../core/limits.ts';
import type { ChosenFiles } from './chosen-files.ts';
import type { SettingsFile } from './settings.ts';

export interface OtherArchivesMeans {
  readonly settings: SettingsFile;
  readonly chosen: ChosenFiles;
  /** Null where the person thought better of it. */
  readonly choose: () => Promise<string | null>;
}

/** The list as it is afterwards. */
export async function otherArchives(
  { add = false, forget }: PageRequestOf<'window.other-archives'>,
  { settings, chosen, choose }: OtherArchivesMeans,
): Promise<PageReplyOf<'window.other-archives'>> {
  const more = add ? await choose() : null;
  const gone = forget === undefined ? undefined : chosen.path(forget);
  const before = settings.now.otherArchives.filter((path) => path !== gone && path !== more);
  const now = more === null ? before : [more, ...before].slice(0, OTHER_ARCHIVES_MAX);
  if (more !== null || gone !== undefined) settings.change({ otherArchives: now });
  return { files: now.map((path) => chosen.keep(path)) };
}
