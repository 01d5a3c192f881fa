/** Why a serial port could not be opened, in a sentence that says what to do. */
import { access, constants, readFile, stat } from 'node:fs/promises';
import { userInfo } from 'node:os';
import { NoAnswerError } from '../bounded-call.ts';
import type { SourceFault } from '../transport.ts';
import { holderOf } from './port-holder.ts';

/**
 * What stands in the way before the library is asked at all; null where nothing does. Only where ports are files.
 */
export async function faultBeforeOpening(path: string): Promise<SourceFault | null> {
  if (process.platform === 'win32') return null;
  let found;
  try {
    found = await stat(path);
  } catch (error) {
    const code = codeOf(error);
    if (code === 'EACCES') return forbidden(path, null);
    return missing(path, code);
  }
  if (!found.isCharacterDevice()) return notAPort(path, found.isDirectory() ? 'a folder' : 'a plain file');
  try {
    await access(path, constants.R_OK | constants.W_OK);
  } catch {
    const group = groupThatMayUse(found);
    return forbidden(path, group === null ? null : await groupName(group));
  }
  return null;
}

/** The fault behind what the library answered to open. */
export async function faultOfOpening(path: string, error: unknown): Promise<SourceFault> {
  const detail = error instanceof Error ? error.message : String(error);
  if (error instanceof NoAnswerError)
    return {
      code: 'no-answer',
      sentence: `${path} gave no answer to being opened; unplug the adapter, plug it in again and retry.`,
      detail,
    };
  if (/cannot lock|EBUSY|resource busy|access denied|access is denied/i.test(detail)) {
    const holder = await holderOf(path);
    const by = holder ?? 'another program';
    return {
      code: 'port-busy',
      sentence: `${path} is in use by ${by}; close it there and retry; the choice of port is kept.`,
      detail,
    };
  }
  if (/ENOENT|no such file|file not found|ENXIO|ENODEV|no such device/i.test(detail))
    return missing(path, detail);
  if (/EACCES|EPERM|permission denied/i.test(detail)) return forbidden(path, null, detail);
  if (/ENOTTY|inappropriate ioctl|not a (?:tty|typewriter)|EISDIR/i.test(detail))
    return { ...notAPort(path, 'a device of another kind'), detail };
  if (/baud|invalid argument|EINVAL|parity|data ?bits|stop ?bits|unknown error code 87/i.test(detail))
    return {
      code: 'port-settings-refused',
      sentence: `${path} does not take these line settings (baud rate, data bits, parity); choose others in the readout profile.`,
      detail,
    };
  return {
    code: 'source-failed',
    sentence: `${path} could not be opened (${detail}); check the adapter and retry.`,
    detail,
  };
}

function missing(path: string, detail: string): SourceFault {
  return {
    code: 'port-missing',
    sentence: `There is no port ${path}; plug the adapter in, or give the path of another port.`,
    detail,
  };
}

function notAPort(path: string, what: string): SourceFault {
  return {
    code: 'not-a-port',
    sentence: `${path} is ${what}, not a serial port; give the path of a port.`,
  };
}

function forbidden(path: string, group: string | null, detail = 'EACCES'): SourceFault {
  const user = userName();
  const what =
    group === null
      ? `ask the administrator for access to it`
      : `it belongs to the group "${group}": have the user ${user} added to it (sudo usermod -a -G ${group} ${user}), then sign out and sign in again`;
  return { code: 'port-forbidden', sentence: `${path} may not be opened by ${user}; ${what}.`, detail };
}

/** Being in the group helps only where the group may read and write; root's own group is given to nobody. */
export function groupThatMayUse({
  gid,
  mode,
}: {
  readonly gid: number;
  readonly mode: number;
}): number | null {
  return gid !== 0 && (mode & 0o060) === 0o060 ? gid : null;
}

function userName(): string {
  try {
    return userInfo().username;
  } catch {
    return `number ${String(process.getuid?.() ?? 0)}`;
  }
}

/** The name of a group by its number; its number as text where the system does not say. */
async function groupName(gid: number): Promise<string> {
  try {
    const groups = await readFile('/etc/group', 'utf8');
    for (const line of groups.split('\n')) {
      const [name, , number] = line.split(':');
      if (name !== undefined && number === String(gid)) return name;
    }
  } catch {
    // Systems that keep their groups elsewhere: the number is as good as it gets.
  }
  return String(gid);
}

function codeOf(error: unknown): string {
  return error instanceof Error && 'code' in error ? String(error.code) : String(error);
}
