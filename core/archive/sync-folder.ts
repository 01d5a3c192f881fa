/** What was written made safe against a power cut: a file, and the folder that a new name of it stands in. */
import { closeSync, fsyncSync, openSync } from 'node:fs';

export function syncFile(path: string): void {
  const file = openSync(path, 'r+');
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** Makes a rename or a new file in it safe; Windows has no such call and needs none. */
export function syncFolder(path: string): void {
  if (process.platform === 'win32') return;
  const folder = openSync(path, 'r');
  try {
    fsyncSync(folder);
  } finally {
    closeSync(folder);
  }
}
