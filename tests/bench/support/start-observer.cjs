/**
 * Loaded before a program whose start is measured, the same one before ours and before the small page: notes the moments of
 * the start on the wall clock and writes them down when the last has come. Nothing drives the program meanwhile. What the
 * page shows is seen in the page itself, by its own clock: its first paint as the engine notes it, and the first frame
 * behind that in which the wanted element stands there. Then the pointer is moved over it as the system would move it.
 */
'use strict';
const { app } = /** @type {typeof import('electron')} */ (require('electron'));
const { renameSync, writeFileSync } = /** @type {typeof import('node:fs')} */ (require('node:fs'));

/** Where to write, and which element the first view has. */
const place = process.env['START_OBSERVED_IN'] ?? '';
const shown = process.env['START_SHOWN'] ?? '';

const now = () => performance.timeOrigin + performance.now();
/** @type {Record<string, number>} */
const seen = { main: now() };

app.once('will-finish-launching', () => (seen['launching'] = now()));
app.once('ready', () => (seen['ready'] = now()));
app.once('browser-window-created', () => (seen['window'] = now()));
app.once('web-contents-created', (_event, contents) => {
  contents.once('did-start-navigation', () => (seen['asked'] = now()));
  contents.once('dom-ready', () => (seen['dom'] = now()));
  contents.once('did-finish-load', () => (seen['loaded'] = now()));
  contents.once('did-navigate', () => {
    seen['committed'] = now();
    const frame = contents.mainFrame;
    void frame.executeJavaScript(`(${whenShown})(${JSON.stringify(shown)})`).then(async (told) => {
      Object.assign(seen, told);
      contents.sendInputEvent({ type: 'mouseMove', x: 200, y: 200 });
      seen['heard'] = /** @type {number} */ (await frame.executeJavaScript('startHeard'));
      seen['answered'] = /** @type {number} */ (await frame.executeJavaScript('startAnswered'));
      Object.assign(seen, await frame.executeJavaScript(`(${painted})()`));
      writeFileSync(`${place}.new`, JSON.stringify(seen));
      renameSync(`${place}.new`, place);
    });
  });
});

/**
 * In the page: when the element stands there and a frame with it has been drawn. What comes later is left to be waited for:
 * a pointer that is heard, and in the program's page an answer of its recorder.
 * @param {string} selector
 */
function whenShown(selector) {
  const clock = () => performance.timeOrigin + performance.now();
  const frame = () => new Promise((drawn) => requestAnimationFrame(drawn));
  const there = new Promise((found) => {
    const look = () => {
      if (document.querySelector(selector) === null) return;
      watch.disconnect();
      found(clock());
    };
    const watch = new MutationObserver(look);
    watch.observe(document, { childList: true, subtree: true });
    look();
  });
  /** @returns {Promise<number>} */
  const answered = async () => {
    const { gaugemark } = /** @type {any} */ (globalThis);
    if (gaugemark === undefined) return clock();
    // Asked again when the page is told of the recorder, as the page itself does it: to ask by turns would keep both
    // processes from their work.
    return new Promise((done) => {
      const ask = async () => {
        if ((await gaugemark.request('session.get', {})).ok) done(clock());
      };
      gaugemark.on('recorder-link', ask);
      void ask();
    });
  };
  Object.assign(globalThis, {
    startHeard: new Promise((heard) => {
      addEventListener('mousemove', () => heard(clock()), { once: true });
    }),
  });
  return there.then(async (inserted) => {
    Object.assign(globalThis, { startAnswered: answered() });
    await frame();
    // The frame with it is drawn once the next one may begin.
    await frame();
    const drawn = clock();
    return { inserted, drawn };
  });
}

/** In the page: what the engine noted by itself. A picture counts once it has been shown, a little after its frame. */
async function painted() {
  await new Promise((noted) => {
    const watch = new PerformanceObserver((list) => {
      if (list.getEntriesByName('first-contentful-paint').length > 0) noted(undefined);
    });
    watch.observe({ type: 'paint', buffered: true });
  });
  const at = (/** @type {number} */ ms) => performance.timeOrigin + ms;
  const entries = performance.getEntriesByType('paint').map(({ name, startTime }) => [name, at(startTime)]);
  const [navigation] = performance.getEntriesByType('navigation');
  const { responseEnd, domInteractive, domContentLoadedEventStart } = /** @type {any} */ (navigation);
  return {
    ...Object.fromEntries(entries),
    page: performance.timeOrigin,
    html: at(responseEnd),
    interactive: at(domInteractive),
    content: at(domContentLoadedEventStart),
  };
}
