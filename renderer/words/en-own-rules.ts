/** Texts about a laboratory's own rule packs, in English. */
export const enOwnRules = {
  title: (used: string, refused: string) =>
    refused === '0'
      ? `Rules of your own: ${used === '0' ? 'none yet' : used}`
      : `Rules of your own: ${used} used, ${refused} not usable`,
  folder: 'One file each in the folder',
  none: 'No file is there. “gaugemark rules show ID --json” prints a pack to start one of your own from.',
  notUsed: 'not used',
  again: 'Read the folder again',
  another: 'Another folder…',
  usual: 'The usual folder',
};
