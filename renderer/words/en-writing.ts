/** Texts about a certificate that is being written, in English. */
export const enWriting = {
  steps: {
    issuing: 'Gathering what it says…',
    photos: 'Taking in the photos…',
    shrinking: 'Making the photos as large as paper shows them…',
    printing: 'Printing all pages in one go; many of them take a minute…',
    saving: 'Putting the file in place…',
  },
  soFar: (seconds: string) => `${seconds} s so far`,
  printed: (pages: string) => (pages === '1' ? '1 page is printed' : `${pages} pages are printed`),
  photo: (at: string, of: string) => `photo ${at} of ${of}`,
  stop: 'Stop writing',
};
