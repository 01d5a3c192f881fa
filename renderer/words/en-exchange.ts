/** Texts about taking pulls elsewhere and bringing them in, in English. */
import type { ExchangeWork } from '../../core/contract/exchange-requests.ts';
import type { PullFact } from '../../core/exchange/export/asked-columns.ts';

/** Of what there is none nothing is said. */
export const others = (counts: readonly (readonly [count: string, words: string])[]): string =>
  counts
    .filter(([count]) => count !== '0')
    .map(([count, words]) => `, ${count} ${words}`)
    .join('');

export const enExchange = {
  indexing: (made: string, of: string) =>
    `the index is being made: ${made} of ${of} pulls can be searched so far`,
  setsNotJudged: (count: string) =>
    `Sets here that are not judged yet: ${count}. A search by verdict or doubts leaves their pulls out until they are.`,
  setsUnjudged: (count: string) =>
    `Sets here that can’t be judged as they are: ${count}. Their pulls are left out; open this archive by itself to see why.`,
  titles: {
    import: 'Import a file of readings',
    merge: 'Take in another archive',
    restore: 'Restore a backup',
    results: 'Export what is found',
    elsewhere: 'Search other archives',
    split: 'Split by year',
  },
  short: {
    import: 'Import a file of readings…',
    merge: 'Take in another archive…',
    restore: 'Restore a backup…',
    results: 'Export what is found…',
    elsewhere: 'Search other archives…',
    split: 'Split by year…',
  },
  means: {
    import:
      'A table as text (CSV, or with tabs, semicolons or blanks) becomes a pull of this archive: its bytes are kept as they are, with their hash, beside the readings made of them.',
    merge:
      'Its pulls come here with everything that was said of them. Certificates and their signatures stay in the archive that issued them: keep it. First it is shown what would happen; the other archive is only read.',
    restore:
      'The backup takes the place of this archive. What is here now stays beside it under another name. First it is shown what would change.',
    elsewhere:
      'Archives of other years or machines, looked through with the same search and filters. They are only read. A pull of theirs is opened by its name, and marked to be laid over others.',
    split:
      'A file for each year is made of this archive, with all that was said of its pulls, and checked as a whole archive is. First it is shown what would be made; this archive is only read.',
    results:
      'A table with a row for each pull that the search finds: what it is, its results with their units, unrounded and as a certificate states them.',
  },
  stop: 'Stop',
  /** Of work that has more than one. */
  stages: {
    copy: 'Copying it, since it can’t be read where it lies …',
    'bring-up': 'Bringing the copy of an earlier form to the present one …',
    'backup-check': 'Reading the copy back …',
    restore: 'Copying the backup beside the archive …',
    export: 'Writing the readings …',
    split: 'Writing and checking the files of the years …',
  } as Partial<Readonly<Record<ExchangeWork, string>>>,
  stopping: 'stops after this step …',
  chooseFile: 'Choose a file…',
  bytes: (kib: string) => `${kib} KiB`,
  layout: 'How the file is laid out',
  asFound: 'as found',
  delimiter: 'Between cells',
  delimiters: { ',': 'comma', ';': 'semicolon', '\t': 'tab', '|': 'bar', blanks: 'blanks' },
  decimalSign: 'Decimal sign',
  point: 'point (1.5)',
  comma: 'comma (1,5)',
  encoding: 'Encoding',
  firstRow: 'Readings begin in line',
  inWords: 'What the columns are, in their order',
  above: 'Lines above the readings',
  columns: 'Columns of the file',
  column: (number: string) => `column ${number}`,
  isA: (name: string) => `What ${name} is`,
  unitOf: (name: string) => `Unit of ${name}`,
  leftOut: 'leave out',
  quantities: {
    time: 'time',
    force: 'force',
    extension: 'extension (extensometer)',
    travel: 'crosshead travel',
    stress: 'stress',
    strain: 'strain',
    'true-stress': 'true stress',
    'true-strain': 'true strain',
  },
  columnsNotShown: (count: string, all: string) =>
    `${count} of the ${all} columns are left out and not shown here.`,
  asSaid: 'The columns are taken as you say.',
  doubts: 'The program is not sure. Say what each column is:',
  sayFirst: 'Say first what the columns are: at least a force or a stress, with its unit.',
  chooseSpecimenFirst: 'Choose first which specimen was pulled.',
  isImported: 'This file is imported already; choose another one.',
  findSpecimen: 'Find the specimen by its name',
  noSpecimenFits: 'No specimen here has this in its name.',
  olderCut: (count: string) => `the newest ${count}; type part of a name for older ones`,
  specimensCut: (count: string) => `the newest ${count} that fit; type more of the name for others`,
  whichSpecimen: 'Specimen that was pulled',
  measureFirst: 'Enter a specimen first…',
  dayOfImport:
    'The record gets the moment of its import. A day that is stated here stands beside it, marked as stated: by that day the pull is then found, sorted by date, drawn over the date and split by year. The order of recording stays that of the import.',
  pulledOn: 'Pulled on',
  pulledOnHint: 'if known: 2019-05-14, or with its time 2019-05-14 10:30',
  notADay: 'This is no day; write it like 2019-05-14, or with its time like 2019-05-14 10:30.',
  dayAhead: 'This day lies ahead; state the day on which it was pulled.',
  sayDayFirst: 'Write the day of the pull like 2019-05-14, or leave it blank.',
  datesInFile: 'Dates that stand in the file',
  lineSays: (line: string) => `Line ${line}:`,
  takeDay: (day: string) => `Pulled on ${day}`,
  wasPulledOn: (day: string, stated: string) => `pulled on ${day} (${stated})`,
  statedAtImport: 'stated at import',
  statedLater: (by: string | null) => (by === null ? 'stated later' : `stated later by ${by}`),
  statedDate: (day: string) => `${day} stated`,
  isStated: 'stated',
  importedAt: (moment: string) => `imported ${moment}`,
  importNow: 'Import',
  importing: 'Reading the file …',
  imported: (pull: string, rows: string, misfits: string) =>
    `Kept as pull ${pull}: ${rows} readings${misfits === '0' ? '' : `, ${misfits} rows that did not fit`}.`,
  openImported: 'Open the pull',
  chooseArchive: 'Choose an archive…',
  merging: 'Looking at its pulls …',
  wouldMerge: (taken: string, addedTo: string, here: string, conflicts: string) =>
    `${taken} would be taken${others([
      [addedTo, 'would get what was said of them there since'],
      [here, 'are here already'],
      [conflicts, 'are in conflict'],
    ])}. Nothing was changed yet.`,
  merged: (taken: string, addedTo: string, here: string, conflicts: string) =>
    `${taken} were taken${others([
      [addedTo, 'got what was said of them there since'],
      [here, 'are here already'],
      [conflicts, 'are in conflict and stay as they are here'],
    ])}.`,
  certificatesThere: (count: string, numbers: string) =>
    `Certificates that stay in that archive, with their signatures: ${count} (${numbers}). Keep it.`,
  mergeStopped: 'It was stopped; what was taken is whole, and taking in once more goes on.',
  mergeNotShown: (count: string) =>
    `${count} more pulls are counted above and not shown; “gaugemark archive merge” lists them, conflicts before others.`,
  mergeNow: (taken: string, addedTo: string) =>
    addedTo === '0' ? `Take in ${taken} pulls` : `Take in ${taken} pulls, add to ${addedTo}`,
  fate: 'What happens',
  fates: {
    taken: 'is taken',
    'added-to': 'is added to',
    'here-already': 'is here already',
    conflict: 'conflict',
  },
  pullThere: 'Pull there',
  pullHere: 'Pull here',
  chooseBackup: 'Choose a backup…',
  looking: 'Looking …',
  restoring: 'Restoring …',
  exportUnderWay: 'Writing the pull …',
  pulls: 'Pulls',
  specimens: 'Specimens',
  lastPull: 'Last pull',
  theBackup: 'Backup',
  theArchive: 'This archive',
  otherArchive:
    'The backup is of another archive. To bring the two together, take it in instead of restoring it.',
  onlyHere: (count: string) => `Only here, and gone from the archive afterwards (${count}): pull`,
  statementsOnlyHere: (count: string) =>
    `Of what was said and decided (evaluations, fractures, sets, certificates …), only here and gone from the archive afterwards: ${count}`,
  onlyInBackup: (count: string) => `Only in the backup (${count}): pull`,
  restoreLosesNothing: 'Everything that is here is in the backup too: nothing is lost by restoring it.',
  restoreLosesTyped: (forms: string) =>
    `Typed and not kept, and lost when the backup is put back: ${forms}. Keep it first, or leave the backup where it is.`,
  restoreSure: 'Put the backup in the place of this archive',
  restoreNotSure: 'Tick first that the backup is to take the place of this archive.',
  restoreNow: 'Restore',
  restored: (name: string) => `The backup is the archive now. What was here is kept as ${name}.`,
  foundNow: (count: string) => `The search finds ${count === '1' ? '1 pull' : `${count} pulls`} now.`,
  form: 'Format',
  forms: {
    xlsx: 'spreadsheet (.xlsx)',
    plain: 'CSV for machines: comma, decimal point',
    'decimal-point-comma': 'CSV for spreadsheets: comma, decimal point',
    'decimal-comma-semicolon': 'CSV for spreadsheets: semicolon, decimal comma',
    'decimal-point-tab': 'CSV for spreadsheets: tab, decimal point',
    'decimal-comma-tab': 'CSV for spreadsheets: tab, decimal comma',
    pdf: 'on paper (PDF)',
  },
  pullForms: {
    json: 'everything that is kept of it (JSON)',
    'json-ld': 'linked data (JSON-LD)',
    original: 'the file as it came',
    svg: 'picture of the curve (SVG)',
    png: 'picture of the curve (PNG)',
    pdf: 'picture of the curve (PDF)',
  },
  exportedOriginal: (path: string) => `The file is written as it came: ${path}`,
  exportPull: (name: string) => `Export ${name}`,
  writePull: 'Write the file…',
  readingPull: 'Reading the pull …',
  splitForSpreadsheet: (count: string, files: string) =>
    `It has ${count} readings, more than a spreadsheet holds: ${files} files are written, each with all heads.`,
  cutOffBySpreadsheet: (count: string) =>
    `It has ${count} readings, and the file holds all of them; a spreadsheet would cut it off without a word. For one, choose a form for spreadsheets: it is split then.`,
  ofPull: 'Of the pull',
  ofResults: 'Results',
  facts: {
    archive: 'archive',
    pull: 'number of the pull',
    specimen: 'specimen',
    started: 'begun',
    'pulled-on': 'pulled on (stated)',
    operator: 'operator',
    set: 'set',
    'rule-pack': 'rules',
    'base-metal': 'base metal',
    filler: 'filler',
    heat: 'heat',
    'filler-lot': 'filler lot',
    welder: 'welder',
    verdict: 'verdict',
    fracture: 'broke in',
    readings: 'number of readings',
    gaps: 'gaps',
    interrupted: 'interrupted',
    void: 'why it is void',
    source: 'source of the readings',
    notes: 'notes',
    withheld: 'withheld, and why',
    remarks: 'remarks on results',
  } satisfies Readonly<Record<PullFact, string>>,
  resultForms: {
    unrounded: 'unrounded',
    rounded: 'rounded, as a certificate states them',
  },
  everyResult: 'every result that a pull gives',
  usualColumns: 'The usual columns',
  usualAlready: 'These are the usual columns.',
  noColumns: 'Choose at least one column.',
  blankColumns: (titles: string) => `No pull gives anything for: ${titles}.`,
  writeResults: 'Write the table…',
  writingResults: 'Working out the results …',
  resultsPrinted: (rows: string, pages: string, name: string) =>
    `${rows === '1' ? '1 row is' : `${rows} rows are`} in ${name}, on ${pages === '1' ? '1 page' : `${pages} pages`}.`,
  resultsWritten: (rows: string, name: string) => `${rows} rows are in ${name}.`,
  tooMany: (max: string) => `A table is worked out for at most ${max} pulls; narrow the search.`,
  filtersToo: 'the filters of the archive count too',
  noOthers: 'No other archive is on the list; add one.',
  searchOthers: 'Search them',
  addOther: 'Add an archive…',
  openOther: 'Go over to it',
  openElsewhere: (name: string) => `Open ${name}`,
  readOnlyIn: (file: string) => `In ${file}, which is only read here`,
  forgetOther: 'Take off the list',
  halfCopy: 'Copied while it was open, without the file “-wal” beside it: what was kept last is missing.',
  split: {
    isLarge: (size: string, large: string) =>
      `This archive has ${size}, and from ${large} on files by year are easier to look after: backups and checks of a large file take long.`,
    isNotLarge: (size: string, large: string) =>
      `This archive has ${size} and need not be split. From ${large} on it is called to mind: backups and checks of a large file take long.`,
    nothing: 'There is no ended pull yet, so there is nothing to split.',
    wouldMake: 'What would be made',
    setsTogether: 'The pulls of a set stay together, in the year of its first one.',
    aboutSize: 'Size, about',
    size: 'Size',
    year: 'Year',
    certificates: 'Certificates',
    file: 'File',
    openStays: 'A record that is still open stays in this archive only.',
    certificatesStay: (count: string) =>
      `Certificates that rest on pulls of several years stay in this archive only: ${count}. Keep it with the files of the years.`,
    needs: (size: string) =>
      `While it is done the disk of the folder needs about ${size} free: the files are made from a copy, so that work here goes on. While a pull is recorded it waits.`,
    chooseFolder: 'Choose a folder and split…',
    copying: 'Copying the archive as it is now …',
    written: (files: string, folder: string) =>
      files === '1'
        ? `One file is in ${folder} and was checked.`
        : `${files} files are in ${folder} and were checked.`,
    areThere: (folder: string) => `Files in ${folder}`,
    unchanged:
      'Nothing in this archive was changed: it was only read, and still holds every pull. Keep it: its own chain of entries is nowhere else. Add the files to the other archives to search them along with this one, and begin a new archive for what comes, if this one is to grow no more.',
    beginNew: 'Begin a new archive…',
  },
  noBackup: 'No backup of this archive is known.',
  oldBackup: (when: string) => `The last backup of this archive is old: ${when}.`,
  lastBackup: (when: string) => `Last backup: ${when}.`,
  backUpInto: 'Back up into a folder…',
  backUpTo: (folder: string) => `Back up into ${folder}`,
  otherFolder: 'Into another folder…',
  notToday: 'Not today',
  backingUp: 'Backing up …',
  backedUp: (name: string, folder: string, dropped: string) =>
    `${name} is in ${folder} and was read back${dropped === '0' ? '' : `; ${dropped} older ones were thinned by age`}.`,
};
