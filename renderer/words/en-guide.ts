/** Texts of the guide, in English. */
export const enGuide = {
  title: 'Guide',
  chapters: {
    measure: {
      title: 'Measure',
      picture:
        'The station Specimen: measurements on the left, drawing and area with its working on the right',
      steps: [
        'At the station Specimen write the identity as it is stamped, and choose the shape of the section.',
        'Measure each size where the section is least, several times where it varies: value, Enter, the next one. mm and inches may be mixed.',
        'The gauge length is the distance between the punch marks before the pull; without it there is no elongation.',
        'Look at the area and how it was worked out, then press “Keep this specimen”. It can be corrected afterwards, with a reason.',
      ],
    },
    connect: {
      title: 'Connect',
      picture: 'The station Readout: raw lines and what is read from them side by side',
      steps: [
        'Join the output of the frame’s readout to a serial port or adapter of this computer.',
        'At the station Readout choose the port and the profile of that readout, and press “Listen”.',
        'Compare each raw line with what is read from it, and the load with the frame’s own display, under load too.',
        'Name frame, force channel and extensometer, so that their calibration stands on the record.',
      ],
    },
    pull: {
      title: 'Pull',
      picture: 'The station Pull: load and peak in large figures, both plots, the state in words',
      steps: [
        'Guard closed, eyes protected, nobody in line with the specimen. This program neither moves nor stops the frame.',
        'Press “Make ready”, then start the frame at the frame. The pull starts itself with the load.',
        'The break marks itself. A wrong mark is taken back: the record runs on.',
        'If the window goes, nothing is lost. If the recorder dies, at most one reading that had come is missing (of a flood, what was read at once); if the power goes, at most the last 100 ms, on a disk that writes in time. The gap is marked; open the program again and go on.',
      ],
    },
    judge: {
      title: 'Judge',
      picture: 'The station Set: its specimens with strength, place of the break and verdict',
      steps: [
        'Begin a set before or after the pulls: what it is for, the rules, the base metal and how many specimens.',
        'Put specimens in, and note at the station Fracture where each one broke.',
        'The verdict names its clause and the figures; what is missing for one is named too. A value is checked against your own copy of the code.',
        'Another judgement, or a specimen that does not count, needs a reason and a name; what was before stays visible.',
      ],
    },
    certify: {
      title: 'Certify',
      picture: 'The station Certificate: what it will say is shown before it is written',
      steps: [
        'Enter the laboratory’s name and address once, at the station Certificate.',
        'Choose the language and the size of the paper, read what it will say, then write it as PDF, CSV or JSON. It gets a number when it is written first.',
        'Sign it by name and PIN; what is signed is the content, by its hash.',
      ],
    },
    restore: {
      title: 'Restore a backup',
      picture: 'A backup before it is restored: what the archive would gain and lose',
      steps: [
        'Back up from the archive’s page or the menu File, to another disk. The copy is read back before it counts.',
        'To restore, choose “Restore a Backup…” in the menu File and the copy. What would change is shown first.',
        'What is here now is kept under another name beside it. Check the archive afterwards.',
      ],
    },
  },
};
