/** Texts of the tour, in Spanish. */
import type { Words } from './en.ts';

export const esTour: Words['tour'] = {
  title: 'Visita guiada',
  take: 'Hacer la visita guiada (tres minutos)',
  place: (at, of) => `paso ${at} de ${of}`,
  leave: 'Dejar la visita guiada',
  goOn: (place) => `Seguir: ${place}`,
  isOn: 'La visita guiada ya está en marcha.',
  isOff: 'No hay ninguna visita guiada en marcha.',
  pulling:
    'Se registra cada lectura, a salvo de un corte de luz en una décima de segundo. La rotura se marcará sola.',
  steps: {
    specimen:
      'Aquí no se ensaya ningún metal y nada queda entre sus ensayos. Una probeta simulada ya está medida; mire su área y cómo se ha calculado y pulse «Guardar esta probeta».',
    readout:
      'Aquí se conecta por cable el indicador de una máquina. Para la visita está elegida la máquina simulada, tres veces más rápida que una real: pulse «Escuchar» y vea cada línea tal como llega junto a lo que se lee de ella.',
    pull: 'Pulse «Preparar»: empieza el registro; el ensayo comienza solo y encuentra solo la rotura. Todo se registra; toda marca se puede deshacer.',
    fracture: 'Ha roto. Diga dónde: pulse el lugar en el dibujo y luego «Guardar esta nota».',
    result:
      'Cada valor con su cálculo, su redondeo y su incertidumbre; lo que el registro no permite afirmar se omite, con el motivo. Abra uno para ver de dónde sale.',
    archive:
      'Así queda en un archivo, marcado como simulado. Este se desecha; deje la visita y el suyo estará como estaba, con las estaciones de verdad.',
  },
};
