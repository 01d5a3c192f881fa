/** What the system tells about a process (Linux): its processor time and its memory. */
import { readFileSync, readdirSync } from 'node:fs';

/** The clock of /proc/…/stat ticks a hundred times a second on every Linux that this runs on. */
const TICKS_PER_S = 100;

/** Processor seconds of all threads so far, in the process and in the kernel on its behalf. */
export function processorSeconds(pid: number): number {
  const text = readFileSync(`/proc/${pid}/stat`, 'latin1');
  // The name may hold blanks and brackets; the fields that follow it begin with the state.
  const fields = text.slice(text.lastIndexOf(')') + 2).split(' ');
  return (Number(fields[11]) + Number(fields[12])) / TICKS_PER_S;
}

/** Resident memory, bytes. */
export function residentBytes(pid: number): number {
  const match = /^VmRSS:\s+(\d+) kB/m.exec(readFileSync(`/proc/${pid}/status`, 'latin1'));
  return Number(match?.[1] ?? Number.NaN) * 1024;
}

export interface FamilyMember {
  readonly pid: number;
  readonly commandLine: string;
}

/** A process and all that it has started, and they in turn. */
export function familyOf(root: number): FamilyMember[] {
  const parents = new Map<number, number>();
  const lines = new Map<number, string>();
  for (const name of readdirSync('/proc')) {
    if (!/^\d+$/.test(name)) continue;
    try {
      const stat = readFileSync(`/proc/${name}/stat`, 'latin1');
      parents.set(Number(name), Number(stat.slice(stat.lastIndexOf(')') + 2).split(' ')[1]));
      lines.set(Number(name), readFileSync(`/proc/${name}/cmdline`, 'latin1').replaceAll('\0', ' '));
    } catch {
      // It has ended meanwhile.
    }
  }
  const family = [root];
  for (const pid of family)
    for (const [child, parent] of parents) if (parent === pid && !family.includes(child)) family.push(child);
  return family.map((pid) => ({ pid, commandLine: lines.get(pid) ?? '' }));
}
