/** A pull as an operator makes it: from station to station, by what the page shows, with the simulated frame. */

/** The longest shipped scenario takes under two minutes at true pace. */
const PULL_MS_MAX = 3 * 60_000;
/** The recorder starts beside the window and is there in a second or two. */
const RECORDER_MS_MAX = 60_000;

/** Entered by hand; the simulated specimen has these dimensions, so that its strength comes out as it should. */
export const DEMONSTRATION_SPECIMEN = {
  id: 'DEMO-1',
  width: ['12.46 mm', '12.48 mm', '12.47 mm'],
  thickness: ['6.12 mm', '6.10 mm'],
  gaugeLength: '50 mm',
};

/** @param {import('playwright').Page} page */
export async function recorderAnswers(page) {
  await until(async () => (await session(page)) !== null, 'the recorder answers', RECORDER_MS_MAX);
}

/**
 * @param {import('playwright').Page} page
 * @param {string} [id]
 */
export async function enterSpecimen(page, id = DEMONSTRATION_SPECIMEN.id) {
  await station(page, 'Specimen').click();
  await page.getByRole('textbox', { name: 'Identity' }).fill(id);
  await page.getByRole('radio', { name: 'Flat' }).check({ force: true });
  await measure(page, 'Width', DEMONSTRATION_SPECIMEN.width);
  await measure(page, 'Thickness', DEMONSTRATION_SPECIMEN.thickness);
  await measure(page, 'Gauge length L0', [DEMONSTRATION_SPECIMEN.gaugeLength]);
  await page.getByRole('button', { name: 'Keep this specimen' }).click();
  await page.getByText(`${id} is kept.`).first().waitFor();
}

/**
 * @param {import('playwright').Page} page
 * @param {string} name
 * @param {readonly string[]} values
 */
async function measure(page, name, values) {
  for (const [index, value] of values.entries()) {
    if (index > 0) await page.getByRole('button', { name: `${name}: measure once more` }).click();
    await page.getByRole('textbox', { name: `${name}, measurement ${index + 1}` }).fill(value);
  }
}

/** @param {import('playwright').Page} page */
export async function listenToSimulatedFrame(page) {
  await station(page, 'Readout').click();
  await page.getByRole('radio', { name: 'Simulated frame' }).check();
  await page.getByRole('button', { name: 'Listen', exact: true }).click();
  await page.getByRole('button', { name: 'Go to the pull' }).click();
}

/**
 * Its record has begun; one that runs faster than true pace may have broken by then.
 * @param {import('playwright').Page} page
 */
export async function makeReady(page) {
  const openPull = async () => (await session(page))?.pullId ?? null;
  const before = await openPull();
  await page.getByRole('button', { name: 'Make ready' }).click();
  await until(
    async () => {
      const now = await openPull();
      return now !== null && now !== before;
    },
    'a pull is made ready',
    PULL_MS_MAX,
  );
}

/**
 * Waits until the recorder is in one of these states.
 * @param {import('playwright').Page} page
 * @param {readonly string[]} states
 */
export async function stateIs(page, states) {
  /** @type {string | null} */
  let state = null;
  await until(
    async () => {
      state = (await session(page))?.state ?? null;
      return state !== null && states.includes(state);
    },
    () => `the pull is ${states.join(' or ')}; it is ${state ?? 'told by nobody'}`,
    PULL_MS_MAX,
  );
}

/**
 * Waits until the page moves on behind the break. The record still runs then.
 * @param {import('playwright').Page} page
 */
export async function tailIsOver(page) {
  await until(async () => (await session(page))?.tailEndsInS === 0, 'the tail is over', PULL_MS_MAX);
}

/**
 * The note puts the record away.
 * @param {import('playwright').Page} page
 * @param {string} place
 */
export async function noteFracture(page, place) {
  await station(page, 'Fracture').click();
  await page.getByRole('radio', { name: new RegExp(`^${place}`) }).check({ force: true });
  await page.getByRole('button', { name: 'Keep this note' }).click();
  await page.getByText(`Noted: ${place}`).first().waitFor();
}

/**
 * @param {import('playwright').Page} page
 * @param {string} name
 */
export function station(page, name) {
  return page
    .getByRole('navigation')
    .getByRole('button', { name: new RegExp(`^${name}\\b`) })
    .first();
}

/**
 * The state, and of the pull that the recorder has open, or had open last, what is waited for; null while nobody answers.
 * @param {import('playwright').Page} page
 */
function session(page) {
  return page.evaluate(async () => {
    const answer = await gaugemark.request('session.get', {});
    if (!answer.ok) return null;
    const { state, pull } = answer.value;
    return { state, pullId: pull?.pullId ?? null, tailEndsInS: pull?.tailEndsInS ?? null };
  });
}

/**
 * @param {() => Promise<boolean>} holds
 * @param {string | (() => string)} what what was waited for, or what to say of it then
 * @param {number} limitMs
 */
async function until(holds, what, limitMs) {
  const endMs = performance.now() + limitMs;
  while (!(await holds())) {
    if (performance.now() > endMs)
      throw new Error(`It did not come: ${typeof what === 'string' ? what : what()}.`);
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
}
