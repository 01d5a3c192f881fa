/** Texts of the guide, in Spanish. */
import type { Words } from './en.ts';

export const esGuide: Words['guide'] = {
  title: 'Guía',
  chapters: {
    measure: {
      title: 'Medir',
      picture: 'La estación Probeta: medidas a la izquierda, dibujo y área con su cálculo a la derecha',
      steps: [
        'En la estación Probeta escriba la identificación tal como está marcada y elija la forma de la sección.',
        'Mida cada dimensión donde la sección es menor, varias veces si varía: valor, Intro, el siguiente. Se pueden mezclar mm y pulgadas.',
        'La longitud entre marcas L0 es su distancia antes del ensayo; sin ella no hay alargamiento.',
        'Mire el área y cómo se ha calculado y pulse «Guardar esta probeta». Después puede corregirse, con un motivo.',
      ],
    },
    connect: {
      title: 'Conectar',
      picture: 'La estación Indicador: las líneas tal como llegan y lo que se lee de ellas, lado a lado',
      steps: [
        'Una la salida del indicador de la máquina a un puerto serie o adaptador de este ordenador.',
        'En la estación Indicador elija el puerto y el perfil de ese indicador y pulse «Escuchar».',
        'Compare cada línea con lo que se lee de ella, y la carga con el indicador de la máquina, también con carga.',
        'Nombre la máquina, el canal de fuerza y el extensómetro, para que su calibración conste en el registro.',
      ],
    },
    pull: {
      title: 'Ensayar',
      picture:
        'La estación Ensayo: carga y máximo en cifras grandes, los dos gráficos, el estado en palabras',
      steps: [
        'Resguardo cerrado, ojos protegidos, nadie en línea con la probeta. Este programa ni mueve ni detiene la máquina.',
        'Pulse «Preparar» y ponga en marcha la máquina con sus propios mandos. El ensayo empieza solo con la carga.',
        'La rotura se marca sola. Una marca equivocada se deshace: el registro sigue.',
        'Si se cierra la ventana, no se pierde nada. Si muere el registrador, falta como mucho una lectura ya llegada (de una avalancha, lo leído de una vez); si se va la luz, como mucho los últimos 100 ms, con un disco que escriba a tiempo. El hueco queda marcado; abra otra vez el programa y siga.',
      ],
    },
    judge: {
      title: 'Juzgar',
      picture: 'La estación Conjunto: sus probetas con resistencia, lugar de la rotura y veredicto',
      steps: [
        'Empiece un conjunto antes o después de los ensayos: para qué es, las reglas, el metal base y cuántas probetas.',
        'Ponga en él las probetas y anote en la estación Rotura dónde rompió cada una.',
        'El veredicto nombra su apartado y las cifras; también dice qué falta. Todo valor se comprueba con su propio ejemplar de la norma.',
        'Otro juicio, o una probeta que no cuenta, pide un motivo y un nombre; lo anterior queda a la vista.',
      ],
    },
    certify: {
      title: 'Certificar',
      picture: 'La estación Certificado: lo que dirá se muestra antes de escribirlo',
      steps: [
        'Escriba una vez el nombre y la dirección del laboratorio en la estación Certificado.',
        'Elija el idioma y el tamaño del papel, lea lo que dirá y escríbalo en PDF, CSV o JSON. Recibe un número la primera vez que se escribe.',
        'Fírmelo con nombre y PIN; se firma el contenido, por su huella.',
      ],
    },
    restore: {
      title: 'Restaurar una copia',
      picture: 'Una copia antes de restaurarla: lo que el archivo ganaría y perdería',
      steps: [
        'Haga la copia desde la página del archivo o el menú Archivo, en otro disco. La copia se relee antes de darla por buena.',
        'Para restaurar, elija «Restaurar una copia de seguridad…» en el menú Archivo y la copia. Antes se muestra qué cambiaría.',
        'Lo que hay ahora se guarda con otro nombre al lado. Compruebe después el archivo.',
      ],
    },
  },
};
