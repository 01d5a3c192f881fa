/** Texts of the camera's sheet, in Spanish. */
import type { enCamera } from './en-camera.ts';

export const esCamera: typeof enCamera = {
  title: 'Foto de la probeta rota',
  live: 'Lo que ve la cámara. No se guarda nada antes de que usted lo diga.',
  taken: 'La imagen tal como se guardaría.',
  which: 'Cámara',
  unnamed: (number) => `cámara ${number}`,
  take: 'Tomar la foto',
  again: 'Tomarla de nuevo',
  keep: 'Guardar esta foto',
  close: 'Cerrar sin foto',
};
