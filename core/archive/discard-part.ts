/** Takes away what was written in part, where that can be done: a medium that has gone would hide why it is done. */
import { rmSync } from 'node:fs';

export function discardPart(...paths: readonly string[]): void {
  for (const path of paths)
    try {
      rmSync(path, { force: true });
    } catch {
      // What went wrong first is told; the part bears a name that nothing takes for the whole.
    }
}

/** The same for a folder and what is in it. */
export function discardFolder(path: string): void {
  try {
    rmSync(path, { recursive: true, force: true });
  } catch {
    // Somebody else's.
  }
}
