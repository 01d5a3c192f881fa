/** A drawing as a file: SVG text, PNG painted from the very same shapes, or the SVG printed as PDF. */
import type { PictureForm } from '../../core/contract/picture-requests.ts';
import type { Drawing } from '../../core/drawing/drawing.ts';
import { svgText } from '../../core/drawing/svg-text.ts';
import { say } from '../design/said.tsx';
import { asInFiles } from '../numbers/number-form.ts';
import { paper } from '../stations/certificate/certificate-choice.ts';
import type { Errand } from '../store/errand.ts';
import { request } from '../store/session-store.ts';
import { words } from '../words/words.ts';
import { paintDrawing } from './paint-drawing.ts';

/** 300 dots to the inch. */
const PNG_PX_PER_MM = 300 / 25.4;

export async function pngBytes(drawing: Drawing): Promise<Uint8Array> {
  const canvas = document.createElement('canvas');
  canvas.width = Math.round(drawing.widthMm * PNG_PX_PER_MM);
  canvas.height = Math.round(drawing.heightMm * PNG_PX_PER_MM);
  const context = canvas.getContext('2d');
  if (context === null) throw new Error('the canvas of the picture could not be made');
  paintDrawing(context, drawing, { pxPerMm: PNG_PX_PER_MM, palette: null });
  const blob = await new Promise<Blob | null>((resolve) => {
    canvas.toBlob(resolve, 'image/png');
  });
  if (blob === null) throw new Error('the picture is too large for this machine');
  return new Uint8Array(await blob.arrayBuffer());
}

/** Asks where, and says where it was written; false where it was not. `draw` is asked for the picture as it stands in a file. */
export async function savePicture(
  work: Errand,
  draw: () => Drawing,
  form: PictureForm,
  suggestedName: string,
): Promise<boolean> {
  const drawing = asInFiles(draw);
  const bytes = form === 'png' ? await pngBytes(drawing) : new TextEncoder().encode(svgText(drawing));
  const on = form === 'pdf' ? { paper: paper.value } : {};
  const saved = await work.run(() => request('window.save-picture', { form, suggestedName, bytes, ...on }));
  if (saved === null || saved.path === null) return false;
  say(words.value.look.saved(saved.path));
  return true;
}
