/** Texts about a certificate that is being written, in English. */
export const enWriting = {
  steps: {
    issuing: 'Gathering what it says…',
    photos: 'Taking in the photos…',
    printing: 'Printing; many pages with photos take a minute…',
    saving: 'Putting the file in place…',
  },
  soFar: (seconds: string) => `${seconds} s so far`,
  photo: (at: string, of: string) => `photo ${at} of ${of}`,
  stop: 'Stop writing',
};
