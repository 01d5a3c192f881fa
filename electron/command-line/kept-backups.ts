/** `gaugemark archive backup --into FOLDER`: a dated, checked backup, and older ones kept by age. */
import { USUAL_AGES } from '../../core/exchange/backup-ages.ts';
import { AGE_MAX, type KeptAges } from '../../core/contract/exchange-requests.ts';
import { type VerbArguments, numberOption } from './arguments.ts';

export const KEPT_BACKUP_FLAGS = {
  into: { type: 'string' },
  'keep-hours': { type: 'string' },
  'keep-days': { type: 'string' },
  'keep-months': { type: 'string' },
} as const;

export const KEPT_BACKUP_HELP = `           --into FOLDER instead of --out: under a name with the date; of older ones of this archive there the newest
           of each hour, day and month stay (--keep-hours ${String(USUAL_AGES.hours)}, --keep-days ${String(USUAL_AGES.days)}, --keep-months ${String(USUAL_AGES.months)}). Only after the new
           one was checked whole: a damaged archive never takes the place of a good backup`;

export function agesFrom(given: VerbArguments): KeptAges {
  const age = (flag: string, usual: number): number =>
    Math.floor(numberOption(flag, given.text(flag), { above: -1, max: AGE_MAX }) ?? usual);
  return {
    hours: age('keep-hours', USUAL_AGES.hours),
    days: age('keep-days', USUAL_AGES.days),
    months: age('keep-months', USUAL_AGES.months),
  };
}
