/** What a reading of a laid pull says, in words: all that was recorded with it, from the full data. */
import type { AlignedCurve } from '../../core/drawing/overlay-plot.ts';
import { fixed, quantityText } from '../numbers/format.ts';
import { language, units } from '../store/view-settings.ts';
import { words } from '../words/words.ts';
import { laid } from './laid-pulls.ts';

export function readOut({ pullId, name, from }: AlignedCurve, reading: number): string {
  const text = words.value.look;
  const pull = laid.value.find((one) => one.pullId === pullId)?.pull ?? null;
  if (pull === null) return '';
  const { curve, evaluation } = pull;
  const at = (column: Float64Array | undefined): number => column?.[reading] ?? Number.NaN;
  const figures: string[] = [];
  const say = (name: string, value: string): void => {
    figures.push(`${name} ${value}`);
  };
  const time = at(curve.timeS) - (curve.timeS?.[from] ?? 0);
  if (!Number.isNaN(time)) say(text.axes.time, `${fixed(time, 2, language.value)} s`);
  const forceN = at(curve.forceN);
  const shown = (value: number, unit: Parameters<typeof quantityText>[1]): string =>
    quantityText(value, unit, units.value, language.value);
  if (!Number.isNaN(forceN)) say(text.axes.load, shown(forceN, 'N'));
  const extensionMm = at(curve.extensionMm);
  const travelMm = at(curve.travelMm);
  if (!Number.isNaN(extensionMm)) say(text.axes.extension, shown(extensionMm, 'mm'));
  else if (!Number.isNaN(travelMm)) say(text.axes.travel, shown(travelMm, 'mm'));
  const areaMm2 = evaluation?.areaMm2;
  const stressMpa = areaMm2 === undefined ? at(curve.stressMpa) : forceN / areaMm2;
  if (!Number.isNaN(stressMpa)) say(text.axes.stress, shown(stressMpa, 'MPa'));
  const strain = evaluation?.strain;
  if (strain !== undefined && strain.channel !== 'travel') {
    const along = strain.channel === 'extension' ? extensionMm : at(curve.strainRatio);
    if (!Number.isNaN(along))
      say(text.axes.strain, `${fixed((along / strain.lengthMm) * 100, 3, language.value)} %`);
  }
  return `${text.point(name, String(reading))}: ${figures.join(', ')}`;
}
