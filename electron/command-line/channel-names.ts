/** `--channel 3=force:lbf`: what a person says about the fields of a readout that does not name them. */
import { type UnitSymbol, unitFromText } from '../../core/quantity/units.ts';
import { fits, type LearntQuantity } from '../../drivers/learn/label-words.ts';
import type { Learnt } from '../../drivers/learn/learn-lines.ts';
import { type ChannelName, nameChannels } from '../../drivers/learn/name-channels.ts';
import { InputError } from './verb.ts';

const EXAMPLE_UNIT: Readonly<Record<LearntQuantity, string>> = {
  time: 's',
  force: 'N',
  extension: 'mm',
  travel: 'mm',
  stress: 'MPa',
  strain: '%',
};
export const NAMED_QUANTITIES = Object.keys(EXAMPLE_UNIT) as LearntQuantity[];

/** Throws an InputError for what is no FIELD=QUANTITY:UNIT, and for a field or a quantity given twice. */
export function namesGiven(texts: readonly string[]): ReadonlyMap<string, ChannelName> {
  const names = new Map<string, ChannelName>();
  for (const text of texts) {
    const wrong = (what: string): InputError =>
      new InputError('option-value-wrong', `--channel "${text.slice(0, 60)}": ${what}.`, 'channel');
    const parts = /^(.+?)=([^:]+)(?::(.+))?$/.exec(text);
    if (parts === null) throw wrong('write it as FIELD=QUANTITY:UNIT, for example 3=force:N');
    const [, field = '', word = '', unitText] = parts;
    const quantity = NAMED_QUANTITIES.find((known) => known === word.trim());
    if (quantity === undefined)
      throw wrong(
        `"${word.slice(0, 40)}" is no quantity of a readout; use one of ${NAMED_QUANTITIES.join(', ')}`,
      );
    const unit = unitText === undefined ? null : unitFromText(unitText.trim());
    if (unitText !== undefined && (unit === null || !fits(quantity, unit.dimension)))
      throw wrong(
        `"${unitText.slice(0, 20)}" is no unit of ${quantity}; write for example ${field}=${quantity}:${EXAMPLE_UNIT[quantity]}`,
      );
    if (names.has(field)) throw wrong(`the field ${field} is named twice; name it once`);
    if ([...names.values()].some((name) => name.quantity === quantity))
      throw wrong(`${quantity} is given to two fields; give it to one`);
    names.set(field, { quantity, unit: unit === null ? null : (unit.symbol as UnitSymbol) });
  }
  return names;
}

/** Throws an InputError where a field does not exist or needs a unit. */
export function named(learnt: Learnt, names: ReadonlyMap<string, ChannelName>): Learnt {
  if (names.size === 0) return learnt;
  const outcome = nameChannels(learnt, names);
  if (outcome.ok) return outcome.learnt;
  const { field, code } = outcome;
  const quantity = names.get(field)?.quantity ?? 'force';
  throw new InputError(
    'option-value-wrong',
    code === 'field-unknown'
      ? `--channel: the lines have no number in a field "${field.slice(0, 40)}"; the fields with numbers are ${learnt.channels.map((channel) => channel.field).join(', ')}.`
      : `--channel: the readout does not say the unit of field ${field}; add it, for example ${field}=${quantity}:${EXAMPLE_UNIT[quantity]}.`,
    'channel',
  );
}

/** How the fields are named that nothing names yet; null where all are known and the load is among them. */
export function namingHint(channels: Learnt['channels']): string | null {
  const open = channels.filter((channel) => channel.quantity === null || channel.unit === null);
  if (open.length === 0) return null;
  const known = new Set(channels.filter((channel) => !open.includes(channel)).map((c) => c.quantity));
  const taken = new Set(channels.map((channel) => channel.quantity));
  const left = (['force', 'extension', 'travel'] as const).filter((quantity) => !taken.has(quantity));
  const examples = open.flatMap(({ field, quantity, unit }) => {
    const word = quantity ?? left.shift();
    return word === undefined ? [] : [`--channel ${field}=${word}:${unit ?? EXAMPLE_UNIT[word]}`];
  });
  return [
    `If you know what they are, say so, for example: ${examples.join(' ')}`,
    ...(known.has('force') ? [] : ['"gaugemark pull" needs a field that is the force.']),
  ].join('\n');
}
