/** Texts about taking back what was only a choice, in English. */
export const enUndo = {
  takeBack: (identity: string) => `Take back what was typed${identity === '' ? '' : `: ${identity}`}`,
  means: 'It had not been kept when another specimen was begun or taken up.',
  takenBack: 'Taken back. Ctrl+Shift+Z brings it again.',
  broughtAgain: 'Brought again.',
  nothing: 'There is nothing to take back here; what is kept or recorded is corrected with a reason.',
  nothingAgain: 'There is nothing to bring again here.',
  key: 'take back the last choice, what was typed in a form, a filter',
  againKey: 'bring it again',
};
