/** Texts of the camera's sheet, in English. */
export const enCamera = {
  title: 'Photo of the broken specimen',
  live: 'What the camera sees. Nothing is kept before you say so.',
  taken: 'The picture as it would be kept.',
  which: 'Camera',
  unnamed: (number: string) => `camera ${number}`,
  take: 'Take the picture',
  again: 'Take it again',
  keep: 'Keep this picture',
  close: 'Close without a picture',
};
