/**
 * Loaded into a window that is driven, before the program: its application counts as ready only when the driver
 * listens. Of a page that is there before, the driver misses the first navigation and waits for it until its time is up.
 */
'use strict';
const { app } = require('electron');

const ready = app.whenReady();
const listening = new Promise((go) => {
  // The driver calls it by this name once it is attached.
  Object.assign(globalThis, { __playwright_run: go });
});
app.whenReady = () => listening.then(() => ready);
