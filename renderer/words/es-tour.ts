/** Texts of the tour, in Spanish. */
import type { Words } from './en.ts';

export const esTour: Words['tour'] = {
  title: 'Recorrido',
  take: 'Hacer el recorrido (tres minutos)',
  place: (at, of) => `paso ${at} de ${of}`,
  leave: 'Dejar el recorrido',
  goOn: (place) => `Seguir: ${place}`,
  isOn: 'El recorrido ya está en marcha.',
  isOff: 'No hay ningún recorrido en marcha.',
  pulling:
    'Se registra cada lectura, a salvo de un corte de luz en una décima de segundo. La rotura se marcará sola.',
  steps: {
    specimen:
      'Aquí no se tracciona ningún metal y nada queda entre sus ensayos. Una probeta simulada ya está medida; mire su área y cómo se ha calculado y pulse «Guardar esta probeta».',
    readout:
      'Aquí se conecta por cable el visor de una máquina. Para el recorrido está elegida la máquina simulada, tres veces más rápida que una real: pulse «Escuchar» y vea cada línea tal como llega junto a lo que se lee de ella.',
    pull: 'Pulse «Preparar»: empieza el registro; la tracción comienza sola y encuentra sola la rotura. Todo se registra; toda marca puede anularse.',
    fracture: 'Ha roto. Diga dónde: pulse el lugar en el dibujo y luego «Guardar esta nota».',
    result:
      'Cada valor con su cálculo, su redondeo y su incertidumbre; lo que el registro no permite afirmar se omite, con el motivo. Abra uno para ver de dónde sale.',
    archive:
      'Así queda en un archivo, marcado como simulado. Este se desecha; deje el recorrido y el suyo estará como estaba, con las estaciones de verdad.',
  },
};
