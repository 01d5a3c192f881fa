/** Takes the zero, and says how far it has moved from the one before: the drift of load, extension and travel. */
import type { Answer } from '../../../core/contract/index.ts';
import type { PageReplyOf } from '../../../core/contract/bridge.ts';
import { UNITS, type UnitSymbol, convert } from '../../../core/quantity/units.ts';
import { say } from '../../design/said.tsx';
import { displayUnit, loadUnit } from '../../numbers/display-unit.ts';
import { significant } from '../../numbers/format.ts';
import { request, session } from '../../store/session-store.ts';
import { language, units } from '../../store/view-settings.ts';
import { words } from '../../words/words.ts';

export async function takeZero(): Promise<Answer<PageReplyOf<'pull.zero'>>> {
  const done = await request('pull.zero', { keys: zeroKeys() });
  if (done.ok) say(saidOf(done.value));
  return done;
}

/** Load, extension and travel can stand off zero before a pull; time can't. */
function zeroKeys(): string[] {
  const zeroed = ['force', 'extension', 'travel'];
  return (session.value?.live ?? []).filter((l) => zeroed.includes(l.quantity)).map((l) => l.key);
}

function saidOf({ moved }: PageReplyOf<'pull.zero'>): string {
  const text = words.value.pull;
  const drifts = Object.entries(moved).map(([key, by]) => {
    const unit = session.value?.live.find((live) => live.key === key)?.coreUnit;
    return `${key} ${isUnit(unit) ? driftText(by, unit) : String(by)}`;
  });
  return drifts.length === 0 ? text.zeroTaken : text.zeroMoved(drifts.join(', '));
}

/** A drift is small: the digits that it has, and loads in N rather than kN. */
function driftText(by: number, unit: UnitSymbol): string {
  const { dimension } = UNITS[unit];
  const shown =
    dimension === 'force' ? loadUnit(Math.abs(by), units.value) : displayUnit(dimension, units.value);
  return `${significant(convert(by, unit, shown), DRIFT_DIGITS, language.value)} ${shown}`;
}
const DRIFT_DIGITS = 3;

const isUnit = (text: string | undefined): text is UnitSymbol => text !== undefined && text in UNITS;
