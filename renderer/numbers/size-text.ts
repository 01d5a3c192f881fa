/** How large a file is: "812 KiB", "37 MiB", "9.4 GiB". */
import { language } from '../store/view-settings.ts';
import { fixed } from './format.ts';

const STEPS = [
  { unit: 'GiB', bytes: 1_073_741_824, places: 1 },
  { unit: 'MiB', bytes: 1_048_576, places: 0 },
  { unit: 'KiB', bytes: 1_024, places: 0 },
] as const;

export function sizeText(bytes: number): string {
  const step = STEPS.find((one) => bytes >= one.bytes) ?? STEPS[STEPS.length - 1] ?? STEPS[0];
  const size = bytes / step.bytes;
  return `${fixed(size, Number.isInteger(size) ? 0 : step.places, language.value)} ${step.unit}`;
}
