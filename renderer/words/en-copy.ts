/** Texts about copying, in English. */
export const enCopy = {
  copied: (rows: string) => `${rows} lines copied, to be put into a spreadsheet`,
  copiedSome: (rows: string, all: string) =>
    `Only the first ${rows} of ${all} pulls were copied; “Export what is found…” writes all of them`,
  allChosen: (count: string) => `All ${count} pulls that were found are chosen; Ctrl+C copies them`,
  number: 'Pull no.',
  noted: 'Marked as',
  unit: 'Unit',
  resultHeads: ['Symbol', 'Result', 'Value', 'Unit', 'Expanded uncertainty ±', 'Coverage factor k'],
  key: 'copy the table that has the focus',
  /** Tables by which they are reached and copied. */
  resultsOf: (name: string) => `Results of ${name}`,
  calibrations: 'Calibrations, line by line',
  worksheet: 'Figures of the worksheet',
  taken: 'What is taken over, pull by pull',
  states: 'Backup and archive beside each other',
};
