/** What a person must still look at in the channels of a proposal, in words. */
import type { LearntChannel } from './profile-of-layout.ts';

export function channelRemarks(channels: readonly LearntChannel[]): string[] {
  const fieldsOf = (holds: (channel: LearntChannel) => boolean): string[] =>
    channels.filter(holds).map((channel) => channel.field);
  const unnamed = fieldsOf((channel) => channel.quantity === null);
  const withoutUnit = fieldsOf((channel) => channel.unit === null);
  const guessed = channels.filter((channel) => channel.quantity !== null && !channel.isSaid);
  return [
    ...(unnamed.length === 0
      ? []
      : [
          `What ${fieldsInWords(unnamed)} ${unnamed.length === 1 ? 'measures' : 'measure'} can't be told from the lines: press on the frame and see which number moves.`,
        ]),
    ...(withoutUnit.length === 0
      ? []
      : [`The readout does not say the unit of ${fieldsInWords(withoutUnit)}; enter it.`]),
    ...guessed.map((channel) => `Field ${channel.field} moves like ${channel.quantity ?? ''}; check it.`),
  ];
}

function fieldsInWords(fields: readonly string[]): string {
  return fields.length === 1 ? `field ${String(fields[0])}` : `fields ${fields.join(', ')}`;
}
