/** What the window's own process says: menu, dialogs for files, questions. In English. */
export const EN_SHELL = {
  menu: {
    file: '&File',
    quit: '&Quit',
    edit: '&Edit',
    undo: 'Undo Typing',
    redo: 'Redo Typing',
    cut: 'Cut',
    copy: 'Copy',
    paste: 'Paste',
    selectAll: 'Select All',
    set: '&Set',
    pull: '&Pull',
    search: 'Se&arch',
    go: '&Go',
    view: '&View',
    larger: 'Larger',
    smaller: 'Smaller',
    naturalSize: 'Natural size',
    fullScreen: 'Full screen',
    help: '&Help',
  },
  files: {
    archive: 'Gaugemark archive',
    curve: 'Curve (CSV)',
    specimen: 'Specimen',
    profile: 'Readout profile',
    rules: 'Rules of one’s own',
    scenario: 'Scenario of the simulated frame',
    certificate: 'Certificate (PDF)',
    certificateCsv: 'Certificate (CSV)',
    certificateJson: 'Certificate (JSON)',
    pictureSvg: 'Picture (SVG)',
    picturePng: 'Picture (PNG)',
    picturePdf: 'Picture (PDF)',
    resultsPdf: 'Table of results (PDF)',
    photo: 'Photo (JPEG, PNG)',
    readings: 'Readings (CSV, text)',
    workbook: 'Spreadsheet',
    everything: 'Everything that is kept of it (JSON)',
    linkedData: 'Linked data (JSON-LD)',
    any: 'Any file',
  },
  dialogs: {
    openArchive: 'Open another archive',
    newArchive: 'Begin a new archive',
    readings: 'File of readings',
    bytes: 'Recorded bytes of a readout',
    takeFrom: 'Archive to take pulls from',
    backup: 'Backup to put back',
    results: 'Table of results',
    saveAs: 'Save as',
    open: 'Open',
    backupFolder: 'Folder of backups',
    yearsFolder: 'Folder for the files of each year',
    rulesFolder: 'Folder of own rule packs',
    photo: 'Photo of the broken specimen',
  },
  closing: {
    message: 'A pull is being recorded.',
    detail:
      'Keep recording: the window stays; nothing changes.\n\n' +
      'Close the window: the recorder goes on until the record has ended; start Gaugemark again to see it.\n\n' +
      'End the record and close: everything recorded so far is kept; what the readout sends from now on is not.',
    buttons: ['Keep recording', 'Close the window', 'End the record and close'],
  },
  closingAtWork: {
    message:
      'Long work is still under way: an import, a merge, a restore, a backup, a split by year, an export, a certificate, or a search that is evaluated again.',
    detail:
      'Let it finish: the window stays; nothing changes.\n\n' +
      'Stop it and close: the pulls in the archive stay as they are; a merge keeps the pulls that it has taken whole, of a search evaluated again what was kept stays; everything else that was begun leaves nothing behind.',
    buttons: ['Let it finish', 'Stop it and close'],
  },
  closingTyped: {
    message: (forms: string): string => `Typed and not kept: ${forms}.`,
    detail:
      'Go back: the window stays; each form is found as it was left, where it was opened.\n\n' +
      'Close without it: what is typed there is lost. Everything kept or recorded stays, also a set or a specimen that is half entered.',
    buttons: ['Go back', 'Close without it'],
  },
  goingOverTyped: {
    message: (forms: string): string => `Typed and not kept in the archive that is open: ${forms}.`,
    detail:
      'Go back: this archive stays open; each form is found as it was left, where it was opened.\n\n' +
      'Go over without it: the other archive is opened, and what is typed there is lost. Everything kept or recorded stays in this archive as it is.',
    buttons: ['Go back', 'Go over without it'],
  },
  pageGone: {
    message: (times: number): string => `The window's page ended ${times} times within a minute.`,
    detail:
      'The recorder is a program of its own and goes on; nothing that it has recorded is lost.\n\n' +
      'Load it again: the page begins anew; what was typed into a form and not kept is lost, a set or a specimen that is half entered stays.\n\n' +
      'Close the window: recording goes on without it; start Gaugemark again to see it. What was typed and not kept is lost.\n\n' +
      'If this machine is a virtual one or used from afar, start with --software-drawing.',
    buttons: ['Load it again', 'Close the window'],
  },
};

export type ShellWords = typeof EN_SHELL;
