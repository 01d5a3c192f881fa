/** Texts about a laboratory's own rule packs, in English. */
export const enOwnRules = {
  title: (used: string, refused: string) =>
    refused === '0'
      ? `Rules of your own: ${used === '0' ? 'none yet' : used}`
      : `Rules of your own: ${used} used, ${refused} not usable`,
  folder: 'One file each in the folder',
  none: 'No file is there yet. Begin one from the rules chosen above; its figures and sentences are changed in any text editor.',
  notUsed: 'not used',
  begin: 'Begin one from the chosen rules…',
  begun: (path: string) =>
    `The rules are in ${path}. Change that file, then read the folder again; from this folder they are offered as rules of your own.`,
  begunElsewhere: (path: string, folder: string) =>
    `The rules are in ${path}, but the folder that is read is ${folder}: put the file there, or choose its own under “Another folder…”.`,
  again: 'Read the folder again',
  read: (folder: string, used: string, refused: string) =>
    `${folder} was read: ${used === '0' ? 'no rules of your own' : `${used} used`}${refused === '0' ? '' : `, ${refused} not usable`}.`,
  another: 'Another folder…',
  usual: 'The usual folder',
};
