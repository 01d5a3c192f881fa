/**
 * Stands as `resources/app` in the fallback Electron and does what the official one does by itself: takes the
 * application's folder (and `-r` modules) from the arguments and loads the folder's main file.
 */
'use strict';
const { app } = /** @type {{ app: any }} */ (require('electron'));
const fs = require('node:fs');
const path = require('node:path');

const given = process.argv.slice(1);
const preloaded = given.filter((_, i) => given[i - 1] === '-r' || given[i - 1] === '--require');
const folder = given.find((argument) => !argument.startsWith('-') && !preloaded.includes(argument));
if (folder === undefined) {
  process.stderr.write('Name the folder of the application to load.\n');
  process.exit(2);
}
const manifest = JSON.parse(fs.readFileSync(path.resolve(folder, 'package.json'), 'utf8'));
app.setName(manifest.productName ?? manifest.name);
app.setVersion(manifest.version);
app.setAppPath(path.resolve(folder));
for (const file of preloaded) require(path.resolve(file));
require(path.resolve(folder, manifest.main));
