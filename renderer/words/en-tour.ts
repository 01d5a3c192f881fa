/** Texts of the tour, in English. */
export const enTour = {
  title: 'Tour',
  take: 'Take the tour (three minutes)',
  place: (at: string, of: string) => `step ${at} of ${of}`,
  leave: 'Leave the tour',
  goOn: (place: string) => `Go on: ${place}`,
  isOn: 'The tour is on already.',
  isOff: 'No tour is on.',
  pulling:
    'It is being recorded, every reading, and safe from a power cut within a tenth of a second. The break will mark itself.',
  steps: {
    specimen:
      'No metal is pulled here, and nothing is kept among your pulls. A simulated specimen is measured already; look at its area and how it was worked out, then press “Keep this specimen”.',
    readout:
      'Here a frame’s readout is connected by cable. For the tour the simulated frame is chosen, three times as fast as a real one: press “Listen”, and see each raw line beside what is read from it.',
    pull: 'Press “Make ready”: the record begins, the pull starts by itself and finds its break by itself. Everything is recorded; every mark can be taken back.',
    fracture: 'It has broken. Say where: press the place on the drawing, then “Keep this note”.',
    result:
      'Every value with its working, its rounding and its uncertainty; what the record can’t support is withheld, with the reason. Open one to see how it comes about.',
    archive:
      'So it stands in an archive, marked as simulated. This one is thrown away; leave the tour, and your own is there as it was, with the real stations.',
  },
};
