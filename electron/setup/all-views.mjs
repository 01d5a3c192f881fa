/**
 * Every view of the window in turn, empty and filled: places, sheets, questions and states, each opened as somebody opens
 * it. The tests look each of them over and the pictures are taken of each. `of` names the components that make a view;
 * `tests/app/window-looked-over.test.ts` fails for a component of the page that nobody came by.
 */
import { randomUUID } from 'node:crypto';
import { createServer } from 'node:net';
import { closeSync, openSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { enterSpecimen, noteFracture, stateIs, tailIsOver } from './demonstration-pull.mjs';

/**
 * @typedef {object} Hand
 * @property {import('playwright').ElectronApplication} app
 * @property {import('playwright').Page} page
 * @property {string} folder the files that the dialogs give lie here
 * @property {string} readout where a made-up readout talks, as it is typed
 *
 * @typedef {object} View
 * @property {string} name
 * @property {string} of the component that makes it
 * @property {(hand: Hand) => Promise<unknown>} open
 * @property {(hand: Hand) => Promise<unknown>} [leave] puts back what would be in the way of the next one
 */

/** A readout that talks twenty times a second and does not say which of its numbers is the load. */
const LINE_MS = 50;
/** @param {number} count */
const bareLine = (count) => `${(Math.sin(count / 9) * 4 + 5).toFixed(2)};${String(500 + (count % 3))}\r\n`;
/** One whose lines have three fields, which none of those above has. */
const UNFIT_PROFILE = {
  schema: 'gaugemark.readout-profile/1',
  name: 'of another readout',
  serial: { baudRate: 9600 },
  format: { kind: 'delimited', delimiter: '\t', fields: ['load', 'way', 'time'] },
  channels: [{ field: 'load', quantity: 'force', unit: { kind: 'fixed', unit: 'kN' } }],
};
const FIT_PROFILE = {
  ...UNFIT_PROFILE,
  name: 'Bench display',
  format: { kind: 'delimited', delimiter: ';', fields: ['load', 'way'] },
};

const SET = {
  name: 'Hopper seam 12',
  purpose: 'procedure-qualification',
  rulePackId: 'asme-ix',
  baseMetals: [{ designation: 'our plate', minimum: '400 MPa' }],
  specimenType: 'transverse-flat',
  requiredCount: 2,
};
const SCENARIO = 'mild-steel-yield-point';
/** What takes two minutes at true pace takes three seconds. */
const PACE = 50;
/** Of a database file; the first one stays as it is, so that it is still known for an archive. */
const PAGE_BYTES = 4096;

/** Place of the button that leaves what is typed. */
const GO_OVER = 1;

const BY_HAND = { trigger: { kind: 'by-hand' }, breakRule: { kind: 'by-hand' }, tailS: 1 };

/** @type {readonly (readonly [place: string, key: string, component: string])[]} */
const PLACES = [
  ['set', 'Alt+1', 'SetStation'],
  ['specimen', 'Alt+2', 'SpecimenStation'],
  ['readout', 'Alt+3', 'ReadoutStation'],
  ['pull', 'Alt+4', 'PullStation'],
  ['fracture', 'Alt+5', 'FractureStation'],
  ['result', 'Alt+6', 'ResultStation'],
  ['certificate', 'Alt+7', 'CertificateStation'],
  ['archive', 'Alt+8', 'ArchivePlace'],
  ['instruments', 'Alt+9', 'InstrumentsPlace'],
  ['people', 'Control+Shift+P', 'PeoplePlace'],
];

/** @param {Hand} hand @param {string} place */
async function goTo({ page }, place) {
  await page.keyboard.press(PLACES.find(([name]) => name === place)?.[1] ?? '');
  await page.locator(`main[data-place="${place}"]`).waitFor();
}

/** @param {string} how @returns {View[]} */
const allPlaces = (how) => [
  ...PLACES.map(([place, , of]) => ({
    name: `${place}, ${how}`,
    of,
    open: (/** @type {Hand} */ hand) => goTo(hand, place),
  })),
  {
    name: `self-check, ${how}`,
    of: 'SelfCheckPlace',
    open: async (hand) => {
      await chooseInMenu(hand, 'go-self-check');
      await hand.page.locator('main[data-place="self-check"]').waitFor();
    },
  },
];

/**
 * A sheet that lies over the page until Escape.
 * @param {string} name @param {string} of @param {(hand: Hand) => Promise<unknown>} open @returns {View}
 */
const sheet = (name, of, open) => ({
  name,
  of,
  open: async (hand) => {
    await open(hand);
    await hand.page.locator('dialog[open]').first().waitFor();
  },
  leave: async ({ page }) => {
    await page.keyboard.press('Escape');
    await page.locator('dialog[open]').waitFor({ state: 'detached' });
  },
});

/** @param {Hand} hand @param {string} id */
const press = ({ page }, id) => page.locator(`#${id}:not([aria-disabled="true"])`).press('Enter');
/** @param {Hand} hand @param {string | RegExp} name */
const pressNamed = ({ page }, name) => page.getByRole('button', { name }).first().press('Enter');
/** @param {string} id */
const escapeBy = (id) => (/** @type {Hand} */ hand) => press(hand, id);

/** @type {readonly View[]} */
const EMPTY = [
  ...allPlaces('empty'),
  sheet('sheet of keys', 'KeysSheet', ({ page }) => page.keyboard.press('F1')),
  sheet('guide', 'Guide', ({ page }) => page.keyboard.press('F2')),
  sheet('what can be done', 'DoingField', ({ page }) => page.keyboard.press('Control+J')),
  sheet('cautions', 'Cautions', (hand) => chooseInMenu(hand, 'cautions')),
  sheet('about', 'MenuSheets', (hand) => chooseInMenu(hand, 'about')),
  {
    name: 'sheet of looks',
    of: 'ViewPanel',
    open: (hand) => press(hand, 'view'),
    leave: ({ page }) => page.keyboard.press('Escape'),
  },
  {
    name: 'tour',
    of: 'TourStrip',
    open: async (hand) => {
      await fillRegisters(hand);
      await goTo(hand, 'specimen');
      await press(hand, 'take-tour');
      await hand.page.locator('#leave-tour').waitFor();
    },
    // The page reads the registers anew when it comes back to its archive.
    leave: async (hand) => {
      await press(hand, 'leave-tour');
      await hand.page.locator('#leave-tour').waitFor({ state: 'detached' });
      await archiveAnswers(hand);
    },
  },
];

/** Forms begun with everything at fault that was left out. @type {readonly View[]} */
const AT_FAULT = [
  {
    name: 'set with faults',
    of: 'SetFormSheet',
    open: async (hand) => {
      await goTo(hand, 'set');
      await press(hand, 'make-set');
      await press(hand, 'keep-set');
      await hand.page.locator('#set-form-fault, [aria-invalid="true"]').first().waitFor();
    },
    leave: ({ page }) => page.locator('#keep-set + button').press('Enter'),
  },
  {
    name: 'specimen with faults',
    of: 'SpecimenStation',
    open: async (hand) => {
      await goTo(hand, 'specimen');
      await press(hand, 'keep-specimen');
      await hand.page.locator('[aria-invalid="true"]').first().waitFor();
    },
  },
  {
    name: 'specimen of another shape',
    of: 'ShapeChoice',
    open: async ({ page }) => {
      for (const shape of ['Round', 'Whole tube', 'Weighed', 'Pipe strip'])
        await page.getByRole('radio', { name: shape }).check({ force: true });
    },
  },
  {
    name: 'person with faults',
    of: 'PersonForm',
    open: async (hand) => {
      await goTo(hand, 'people');
      await press(hand, 'add-person');
      await hand.page.getByRole('radio', { name: 'with a PIN' }).check({ force: true });
      await press(hand, 'keep-person');
      await hand.page.locator('[aria-invalid="true"]').first().waitFor();
    },
  },
  {
    name: 'instrument with faults',
    of: 'InstrumentForm',
    open: async (hand) => {
      await goTo(hand, 'instruments');
      await press(hand, 'add-instrument');
      await press(hand, 'keep-instrument');
      await hand.page.locator('[aria-invalid="true"]').first().waitFor();
    },
  },
];

/** @type {readonly View[]} */
const READOUTS = [
  {
    name: 'learning an unknown readout',
    of: 'LearnLines',
    open: async (hand) => {
      await goTo(hand, 'readout');
      await hand.page.getByRole('textbox', { name: /Port by path/ }).fill(hand.readout);
      await press(hand, 'learn-lines');
      await hand.page.locator('#stop-learning').waitFor();
    },
  },
  {
    name: 'numbers of an unknown readout',
    of: 'NameNumbers',
    open: async (hand) => {
      await hand.page.locator('#keep-learnt').waitFor();
      await press(hand, 'keep-learnt');
      await hand.page.locator('#learnt-name[aria-invalid="true"]').waitFor();
    },
    leave: async (hand) => {
      await press(hand, 'drop-learnt');
      await hand.page.locator('#listen').waitFor();
    },
  },
  {
    name: 'second instrument',
    of: 'SecondInstrument',
    open: async ({ page }) => {
      // Of a serial port, so that its control lines are offered too.
      await page.getByRole('textbox', { name: /Port by path/ }).fill('/dev/ttyUSB0');
      // By its key: what is told of the port that was typed moves it under the pointer.
      await page.locator('#second-instrument').press('Space');
      await page.locator('#second-port').waitFor();
      // Scale and offset unfolded beside it, and one of them wrong.
      await page.locator('#channel-factors > summary').press('Enter');
      await page.locator('#channel-factors input').first().fill('0');
      await page.locator('#keep-factors').press('Enter');
      await page.locator('#channel-factors [aria-invalid="true"]').first().waitFor();
    },
    leave: async ({ page }) => {
      await page.locator('#channel-factors input').first().fill('1');
      await page.locator('#channel-factors > summary').press('Enter');
      await page.locator('#second-instrument').press('Space');
      await page.locator('#second-port').waitFor({ state: 'detached' });
    },
  },
  {
    name: 'alarm that no line fits',
    of: 'LearnInstead',
    open: async (hand) => {
      await asked(hand, 'readout.open', { source: tcpSource(hand), profile: UNFIT_PROFILE });
      await hand.page.locator('.notice button').first().waitFor();
    },
    leave: (hand) => asked(hand, 'readout.close', {}),
  },
];

/** @type {readonly View[]} */
const REGISTERS = [
  {
    name: 'instrument',
    of: 'InstrumentView',
    open: async (hand) => {
      await goTo(hand, 'instruments');
      await pressNamed(hand, 'LC-20');
      await hand.page.locator('#add-calibration').waitFor();
    },
  },
  {
    name: 'calibration being entered',
    of: 'CalibrationEntry',
    open: async (hand) => {
      await press(hand, 'add-calibration');
      await press(hand, 'keep-calibration');
      await hand.page.locator('[aria-invalid="true"]').first().waitFor();
    },
    leave: (hand) => backToInstrument(hand, 'LC-20'),
  },
  {
    name: 'verification of forces',
    of: 'VerificationSheet',
    open: async (hand) => {
      const { page } = hand;
      await press(hand, 'verify-instrument');
      await page.locator('#sheet-resolution').fill('0.01');
      await page.getByLabel('Applied, line 1').focus();
      for (const force of ['20', '40', '60', '80', '100'])
        for (const text of [force, `${force}.02`, `${force}.05`, `${force}.03`, `${force}.08`]) {
          await page.keyboard.insertText(text);
          await page.keyboard.press('Enter');
        }
      for (const zero of ['0', '0.01', '0']) {
        await page.keyboard.insertText(zero);
        await page.keyboard.press('Enter');
      }
      await page.locator('#worksheet-verdict').waitFor();
    },
  },
  {
    name: 'instrument with its verification',
    of: 'InstrumentView',
    open: async (hand) => {
      const { page } = hand;
      await page.locator('#calibration-certificateNumber').fill('V-2024-3');
      await page.locator('#calibration-calibratedOn').fill('2024-02-01');
      await page.locator('#calibration-dueOn').fill('2025-01-30');
      await press(hand, 'keep-verification');
      await page
        .getByRole('button', { name: /^Certificate \(PDF\)/ })
        .first()
        .waitFor();
    },
    leave: (hand) => backToInstrument(hand, 'EX-50'),
  },
  {
    name: 'verification of an extensometer',
    of: 'ExtensionSheet',
    open: async (hand) => {
      const { page } = hand;
      await press(hand, 'verify-instrument');
      await page.locator('#extension-gauge-length').fill('50');
      await page.locator('#sheet-resolution').fill('0.0001');
      for (const [place, applied] of [0.1, 0.2, 0.5, 1, 2].entries())
        for (const column of ['Displacement applied', 'Run 1', 'Run 2'])
          await page.getByLabel(`${column}, line ${String(place + 1)}`).fill(String(applied));
      await page.locator('#extension-verdict').waitFor();
    },
    leave: (hand) => backToInstrument(hand, 'LC-20'),
  },
  sheet('instrument out of use', 'ReasonedAct', (hand) => pressNamed(hand, /^Take out of use/)),
  {
    name: 'readout that is open',
    of: 'ReadoutInstruments',
    open: async (hand) => {
      await enterSpecimen(hand.page, 'HS-1');
      await goTo(hand, 'readout');
      await asked(hand, 'readout.open', { source: tcpSource(hand), profile: FIT_PROFILE });
      await hand.page.locator('#calibration-concerns').waitFor();
    },
  },
  sheet('calibration asked about', 'CalibrationAsked', async (hand) => {
    await goTo(hand, 'pull');
    await press(hand, 'act-ready');
  }),
];

/** What was pulled somewhere else. */
const ELSEWHERE = {
  id: 'HS-0',
  geometry: { kind: 'flat', width: '12.5 mm', thickness: '5 mm' },
  gaugeLength: '50 mm',
  parallelLength: '60 mm',
};

/** @type {readonly View[]} */
const PULLS = [
  {
    name: 'pull under way',
    of: 'PullStation',
    open: async (hand) => {
      const { page } = hand;
      await asked(hand, 'readout.close', {});
      await asked(hand, 'set.save', { form: SET });
      await asked(hand, 'set.join', { setId: 1, specimenId: 1 });
      await goTo(hand, 'set');
      await pressNamed(hand, new RegExp(`^Open ${SET.name}`));
      await page.locator('#set-step').waitFor();
      await openSimulated(hand);
      await goTo(hand, 'pull');
      await page.locator('#speed-method').selectOption('iso-6892-1-b-stiff');
      await asked(hand, 'pull.ready', { specimenId: 1, ...BY_HAND });
      await stateIs(page, ['ready']);
      await asked(hand, 'pull.start', {});
      await stateIs(page, ['pulling']);
      await page.locator('#act-stop').waitFor();
    },
    leave: async (hand) => {
      await asked(hand, 'pull.close', {});
      await asked(hand, 'pull.void', { pullId: 1, reason: 'only to be looked at' });
    },
  },
  {
    name: 'pull that has ended',
    of: 'PullState',
    open: async (hand) => {
      const { page } = hand;
      await openSimulated(hand);
      await goTo(hand, 'set');
      await pressNamed(hand, /^Pull HS-1/);
      await page.locator('main[data-place="pull"]').waitFor();
      await press(hand, 'act-ready');
      await stateIs(page, ['broken']);
      await tailIsOver(page);
      await goTo(hand, 'pull');
    },
  },
  {
    name: 'fracture noted',
    of: 'FractureStation',
    open: async (hand) => {
      await noteFracture(hand.page, 'Base metal');
      await hand.page.locator('#after-fracture summary').press('Enter');
      const photo = join(hand.folder, 'halves.png');
      await hand.page.screenshot({ path: photo });
      await dialogsGive(hand, photo);
      await press(hand, 'add-photo');
      await hand.page.locator('main img').first().waitFor();
    },
  },
];

/** @type {readonly View[]} */
const FILLED = [
  ...allPlaces('filled'),
  {
    name: 'specimen of the set',
    of: 'MemberSheet',
    open: async (hand) => {
      await goTo(hand, 'set');
      if ((await hand.page.locator('.member-sheet').count()) === 0)
        await hand.page.locator('.open-member').first().press('Enter');
      await hand.page.locator('.member-sheet .verdict-part').first().waitFor();
    },
  },
  sheet('verdict overruled', 'OverrideDialog', (hand) => pressNamed(hand, 'Decide otherwise…')),
  sheet('retest', 'RetestDialog', (hand) => pressNamed(hand, 'Retest…')),
  sheet('test made void', 'VoidDialog', (hand) => pressNamed(hand, 'Void…')),
  {
    name: 'certificate to be written',
    of: 'CertificatePreview',
    open: async (hand) => {
      await goTo(hand, 'certificate');
      await hand.page.getByRole('region', { name: 'What it says' }).waitFor();
    },
  },
  {
    name: 'certificate to be signed',
    of: 'SignCertificate',
    open: async (hand) => {
      await dialogsGive(hand, join(hand.folder, 'certificate.pdf'));
      await press(hand, 'write-pdf');
      await hand.page.locator('#sign-certificate').waitFor();
    },
  },
  sheet('evaluation sheet', 'EvaluationSheet', async (hand) => {
    await goTo(hand, 'result');
    await evaluateByOtherRules(hand);
  }),
  {
    name: 'result evaluated again',
    of: 'JudgedBeside',
    open: async (hand) => {
      await evaluateByOtherRules(hand);
      await hand.page.locator('#evaluation-reason').fill('what the class rules say');
      await press(hand, 'keep-evaluation');
      await hand.page.locator('.kept-evaluation').first().waitFor();
    },
  },
  {
    name: 'certificate that is out of date',
    of: 'Outdated',
    open: async (hand) => {
      await goTo(hand, 'certificate');
      await hand.page.locator('.outdated-certificate').waitFor();
    },
  },
  sheet('board', 'Board', async (hand) => {
    await goTo(hand, 'result');
    await press(hand, 'to-board');
  }),
  {
    name: 'pull of the archive',
    of: 'ArchivedPull',
    open: async (hand) => {
      await goTo(hand, 'archive');
      await hand.page
        .getByRole('button', { name: /^Open the pull of/ })
        .first()
        .press('Enter');
      await hand.page.locator('.result-line').first().waitFor();
    },
  },
  sheet('pull made void', 'VoidPull', (hand) => press(hand, 'void-pull')),
  sheet('pull to be exported', 'PullExportSheet', (hand) => chooseInMenu(hand, 'export')),
  {
    name: 'certificate of one pull',
    of: 'CertificateOfPull',
    open: async (hand) => {
      await press(hand, 'pull-certificate');
      await hand.page.getByRole('region', { name: 'What it says' }).waitFor();
    },
    leave: async (hand) => {
      await goTo(hand, 'archive');
      await hand.page.locator('.result-line').first().waitFor();
    },
  },
  {
    name: 'filters and columns',
    of: 'SearchBar',
    open: async (hand) => {
      await hand.page.keyboard.press('Escape');
      await hand.page.locator('#found-pulls').waitFor();
      for (const one of await hand.page.locator('details.filters summary').all()) await one.press('Enter');
    },
    leave: async ({ page }) => {
      for (const one of await page.locator('details.filters summary').all()) await one.press('Enter');
    },
  },
  exchange('import-file', 'ImportSheet'),
  exchange('merge-archive', 'MergeSheet'),
  exchange('restore-backup', 'RestoreSheet'),
  exchange('export-results', 'ResultsSheet'),
  exchange('search-others', 'OtherArchivesSheet'),
  {
    name: 'archive to be split by year',
    of: 'SplitSheet',
    open: async (hand) => {
      await chooseInMenu(hand, 'split-by-year');
      await hand.page.locator('.exchange caption').waitFor();
    },
    leave: escapeBy('leave-exchange'),
  },
  {
    name: 'readings to import',
    of: 'ImportSheet',
    open: async (hand) => {
      const file = join(hand.folder, 'strange.csv');
      const rows = Array.from({ length: 40 }, (_, i) => `${String(i)},5;${String(i * 3)},25`);
      // It falls at its end, so that it has a maximum.
      writeFileSync(file, `Date: 05/04/2019\nd;F\n${rows.join('\n')}\n40,5;2,25\n`);
      // HS-1 has a pull that counts in its set already; this one is in the set before it has any, and not judged.
      const saved = await asked(hand, 'specimen.save', { specimen: ELSEWHERE });
      const { specimenId } = /** @type {{ specimenId: number }} */ (saved);
      await asked(hand, 'set.join', { setId: 1, specimenId });
      await dialogsGive(hand, file);
      await chooseInMenu(hand, 'import-file');
      await press(hand, 'choose-curve');
      await hand.page.locator('#import-delimiter').waitFor();
    },
  },
  {
    name: 'readings imported',
    of: 'ImportSheet',
    open: async (hand) => {
      const { page } = hand;
      await page.getByLabel('What F is').selectOption('force');
      await page.getByLabel('Unit of F').selectOption('kN');
      await page.getByLabel('What d is').selectOption('travel');
      await page.locator('#import-specimen').selectOption({ index: 1 });
      await press(hand, 'import-now');
      await page.locator('#open-imported').waitFor();
    },
  },
  sheet('day of an imported pull', 'StateDay', async (hand) => {
    await press(hand, 'open-imported');
    await press(hand, 'state-day');
  }),
  sheet('evaluation of a pull with crosshead travel', 'BlankRunOfPull', async (hand) => {
    await press(hand, 'evaluate-again');
    await unfold(hand);
    // By key: what is still being read moves the sheet beneath a pointer.
    await hand.page
      .locator('dialog')
      .getByRole('radio', { name: /crosshead/i })
      .press(' ');
    await unfold(hand);
    await hand.page.locator('#take-blank-run').waitFor();
  }),
  ofAllFound('lay-over', 'OverlayPlace', async ({ page }) => {
    await page.locator('.overlay-legend li[data-state="ready"]').nth(2).waitFor();
    await page.locator('#overlay-first').selectOption('load-time');
    await page.locator('#overlay-align').selectOption('start');
    await page.locator('#overlay-legend').focus();
    // Two of the simulated frame: the third has all of its load at once.
    for (const key of ['ArrowDown', 'ArrowDown', 'd', 'ArrowUp']) await page.keyboard.press(key);
    await page.locator('#difference-svg').waitFor();
  }),
  ofAllFound('see-trend', 'TrendPlace', async ({ page }) => {
    await page
      .getByText(/of \d+ pulls evaluated/)
      .first()
      .waitFor();
    await page.locator('.trend-figures').waitFor();
  }),
  ofAllFound('evaluate-found-again', 'AgainPlace', async (hand) => {
    await press(hand, 'again-first');
    await hand.page.locator('#again-first').waitFor();
  }),
  {
    name: 'sets to choose from',
    of: 'SetStation',
    open: async (hand) => {
      await goTo(hand, 'set');
      await press(hand, 'close-set');
      await hand.page.locator('.set-list li').first().waitFor();
    },
  },
  {
    name: 'peak typed in',
    of: 'TypedPull',
    open: async (hand) => {
      await goTo(hand, 'pull');
      await hand.page
        .getByRole('button', { name: /^Next specimen/ })
        .first()
        .press('Enter');
      await enterSpecimen(hand.page, 'HS-2');
      await goTo(hand, 'pull');
      await hand.page.locator('#typed-pull summary').press('Enter');
      await hand.page.locator('#typed-load').waitFor();
    },
  },
  {
    name: 'damaged archive being set aside',
    of: 'SetArchiveAside',
    open: async (hand) => {
      const file = join(hand.folder, 'damaged.gaugemark');
      await dialogsGive(hand, file);
      const saved = await asked(hand, 'window.choose-save-path', {
        kind: 'archive',
        suggestedName: 'damaged.gaugemark',
      });
      await asked(hand, 'readout.close', {});
      await asked(hand, 'archive.backup', { to: /** @type {{ path: string }} */ (saved).path });
      overwrite(file, PAGE_BYTES, 2 * PAGE_BYTES);
      // Forms were left half done on the way here.
      await hand.app.evaluate(({ dialog }, goOver) => {
        dialog.showMessageBox = () => Promise.resolve({ response: goOver, checkboxChecked: false });
      }, GO_OVER);
      await chooseInMenu(hand, 'other-archive');
      await press(hand, 'set-aside');
      await hand.page.locator('#set-aside-confirmed').waitFor();
    },
  },
];

export const VIEWS = [...EMPTY, ...AT_FAULT, ...READOUTS, ...REGISTERS, ...PULLS, ...FILLED];

/**
 * Comes to each of them in turn.
 * @param {Omit<Hand, 'readout'>} hand
 * @param {(view: View) => Promise<void>} look
 */
export async function walkThroughViews(hand, look) {
  const readout = await madeUpReadout();
  try {
    const whole = { ...hand, readout: `tcp:127.0.0.1:${String(readout.port)}` };
    for (const view of VIEWS) {
      try {
        await view.open(whole);
        await look(view);
        await view.leave?.(whole);
      } catch (cause) {
        throw new Error(`The view “${view.name}” can't be come to or left.`, { cause });
      }
    }
  } finally {
    readout.end();
  }
}

/** A recorder that starts on a busy machine takes some seconds; what can be pressed follows from it. */
const MENU_MS_MAX = 60_000;

/**
 * By the menu, as soon as the page has told it what there is.
 * @param {Pick<Hand, 'app'>} hand @param {string} id
 */
export async function chooseInMenu({ app }, id) {
  /** @param {string | null} press of this name, which is made once however often it is asked for; null only looks @returns {Promise<boolean>} */
  const item = (press) =>
    app.evaluate(
      ({ Menu }, [name, pressed]) => {
        const kept = /** @type {{ pressedInMenu?: string }} */ (globalThis);
        if (pressed !== null && kept.pressedInMenu === pressed) return true;
        const menu = Menu.getApplicationMenu();
        if (menu?.getMenuItemById(name)?.enabled !== true) return false;
        if (pressed !== null) {
          kept.pressedInMenu = pressed;
          menu.getMenuItemById(name)?.click();
        }
        return true;
      },
      /** @type {const} */ ([id, press]),
    );
  const endMs = performance.now() + MENU_MS_MAX;
  while (!(await item(null))) {
    if (performance.now() > endMs) throw new Error(`The menu has nothing named ${id} that can be pressed.`);
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  await item(randomUUID());
}

/**
 * One of the sheets for taking pulls elsewhere.
 * @param {string} id @param {string} component @returns {View}
 */
function exchange(id, component) {
  return {
    name: `${id}, begun`,
    of: component,
    open: async (hand) => {
      await chooseInMenu(hand, id);
      await hand.page.locator('.exchange h2').first().waitFor();
    },
    leave: escapeBy('leave-exchange'),
  };
}

/**
 * What is shown of all that was found.
 * @param {string} id @param {string} of @param {(hand: Hand) => Promise<unknown>} then @returns {View}
 */
function ofAllFound(id, of, then) {
  return {
    name: id,
    of,
    open: async (hand) => {
      await goTo(hand, 'archive');
      await press(hand, 'mark-all');
      await press(hand, id);
      await then(hand);
    },
    leave: ({ page }) => page.keyboard.press('Escape'),
  };
}

/** Everything that is folded away in the sheet on top. @param {Hand} hand */
async function unfold({ page }) {
  await page.locator('dialog[open]').waitFor();
  await page
    .locator('dialog details')
    .evaluateAll((folded) => folded.forEach((one) => one.setAttribute('open', '')));
}

/** @param {Hand} hand */
async function evaluateByOtherRules(hand) {
  await press(hand, 'evaluate-again');
  await hand.page.locator('#evaluation-rules').waitFor({ state: 'attached' });
  await unfold(hand);
  await hand.page.locator('#evaluation-rules').selectOption('shop-practice');
  await hand.page.locator('#evaluation-offsets').fill('0.1');
  await press(hand, 'work-out');
  await hand.page.locator('#keep-evaluation:not([aria-disabled="true"])').waitFor();
}

/** Instruments, one of them overdue, a person and the laboratory. @param {Hand} hand */
async function fillRegisters(hand) {
  for (const instrument of [
    { kind: 'force-channel', name: 'LC-20', serialNumber: '4711', range: { from: '0', to: '200 kN' } },
    { kind: 'extensometer', name: 'EX-50', range: { from: '0', to: '5 mm' } },
  ])
    await asked(hand, 'instrument.save', { form: instrument });
  await asked(hand, 'instrument.calibrate', {
    instrumentId: 1,
    form: { certificateNumber: 'K-17', calibratedOn: '2024-01-31', dueOn: '2025-01-31', by: 'Quay 9' },
  });
  await asked(hand, 'people.save', { name: 'A. Person', sign: 'AP', roles: ['operator'] });
  await asked(hand, 'laboratory.save', { name: 'Quay 9 welding school', lines: ['Hall 4'] });
}

/** @param {Hand} hand @param {string} name */
async function backToInstrument(hand, name) {
  await press(hand, 'all-instruments');
  await pressNamed(hand, name);
  await hand.page.locator('#add-calibration').waitFor();
}

/** @param {Hand} hand */
async function openSimulated(hand) {
  const known = /** @type {import('../../core/contract/bridge.ts').PageReplyOf<'readout.scenarios'>} */ (
    await asked(hand, 'readout.scenarios', {})
  );
  const { profiles } =
    /** @type {import('../../core/contract/bridge.ts').PageReplyOf<'readout.profiles'>} */ (
      await asked(hand, 'readout.profiles', {})
    );
  const its = known.scenarios.find(({ name }) => name === SCENARIO)?.profileName;
  const profile = profiles.find((one) => one.profile.name === its)?.profile;
  await asked(hand, 'readout.open', {
    source: { kind: 'simulated', scenario: SCENARIO, seed: 1, pace: PACE },
    profile,
  });
}

/** @param {Hand} hand */
const tcpSource = ({ readout }) => ({
  kind: 'tcp',
  host: '127.0.0.1',
  port: Number(readout.split(':').at(-1)),
});

/**
 * Through the page's own bridge; a refusal is a fault of these steps.
 * @param {Pick<Hand, 'page'>} hand @param {string} name @param {object} payload @returns {Promise<unknown>}
 */
async function asked({ page }, name, payload) {
  const answer = await page.evaluate(
    ([what, content]) =>
      /** @type {{ request: (name: unknown, payload: unknown) => Promise<{ ok: true, value: unknown } | { ok: false, fault: { sentence: string } }> }} */ (
        /** @type {unknown} */ (gaugemark)
      ).request(what, content),
    /** @type {const} */ ([name, payload]),
  );
  if (!answer.ok) throw new Error(`${name}: ${answer.fault.sentence}`);
  return answer.value;
}

/** @param {Hand} hand */
async function archiveAnswers(hand) {
  for (;;) {
    try {
      await asked(hand, 'session.get', {});
      return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 100));
    }
  }
}

/** @param {Hand} hand @param {string} path */
async function dialogsGive({ app }, path) {
  await app.evaluate(({ dialog }, its) => {
    dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [its] });
    dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: its });
  }, path);
}

/** @param {string} file @param {number} from @param {number} bytes */
function overwrite(file, from, bytes) {
  const opened = openSync(file, 'r+');
  writeSync(opened, Buffer.alloc(bytes, 0x5a), 0, bytes, from);
  closeSync(opened);
}

/** @returns {Promise<{ port: number, end: () => void }>} */
async function madeUpReadout() {
  /** @type {Set<import('node:net').Socket>} */
  const listening = new Set();
  const server = createServer((socket) => {
    listening.add(socket);
    socket.on('error', () => undefined).on('close', () => listening.delete(socket));
  });
  let count = 0;
  const timer = setInterval(() => {
    count++;
    for (const socket of listening) socket.write(bareLine(count));
  }, LINE_MS);
  await new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve(null)));
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The made-up readout has no port.');
  return {
    port: address.port,
    end: () => {
      clearInterval(timer);
      for (const socket of listening) socket.destroy();
      server.close();
    },
  };
}
