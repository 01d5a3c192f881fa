/** Texts about what is kept of people and proof, in English: void pulls, photos, signatures. */
export const enTrail = {
  makeVoid: 'Make this pull void…',
  voidTitle: 'Make this pull void',
  voidMeans:
    'The pull stays as it was recorded and stays visible. It counts in no set, no verdict and no certificate any more. This can’t be taken back.',
  voidAct: 'Make it void',
  voidDone: 'The pull is void and counts no more.',
  voidMark: (when: string, by: string, reason: string) => `VOID since ${when}, by ${by}: ${reason}`,
  isVoid: 'void',
  nobody: 'nobody named',
  photos: 'Photos of the broken specimen',
  noPhotos: 'No photo is kept yet.',
  addPhoto: 'Add a photo…',
  takePhoto: 'Take a photo…',
  photoKept: (name: string) => `The photo ${name} is kept with its hash.`,
  photoFacts: (pixels: string, bytes: string) => `${pixels} pixels, ${bytes} bytes`,
  withdraw: 'Withdraw…',
  withdrawOne: (name: string) => `Withdraw the photo ${name}`,
  withdrawMeans:
    'The photo stays in the archive, marked as withdrawn, and stands on no certificate any more.',
  withdrawAct: 'Withdraw the photo',
  withdrawn: (by: string, reason: string) => `Withdrawn by ${by}: ${reason}`,
  caption: 'What it shows',
  sign: 'Sign this certificate',
  signedBy: (names: string) => `Signed: ${names}`,
  signMeans: (number: string) =>
    `Your name is put under certificate ${number} as it is now. If anything in it changes later, the next one has another number and no signature.`,
  printedName: 'Printed name or short sign',
  meaning: 'Meaning',
  meanings: {
    'tested by': 'Tested by',
    'evaluated by': 'Evaluated by',
    'reviewed by': 'Reviewed by',
    'approved by': 'Approved by',
    'witnessed by': 'Witnessed by',
  },
  pin: 'PIN, where one is asked for',
  signAct: 'Sign',
  signed: (number: string, name: string) =>
    `Certificate ${number} is signed by ${name}. Write it once more to have the signature on paper.`,
};
