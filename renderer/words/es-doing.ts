/** Texts of the field in which one writes what one wants to do, in Spanish. */
import type { Words } from './en.ts';

export const esDoing: Words['doing'] = {
  title: '¿Qué quiere hacer?',
  hint: 'Escríbalo con sus palabras; ↑ ↓ eligen, Intro lo hace, Esc sale.',
  list: 'Lo que se puede hacer',
  nothing: (text) => `Aquí nada se llama «${text}». Pruebe otra palabra, o F1 para ver las teclas.`,
  count: (count) => `${count} encontradas`,
  notNow: 'ahora no',
  holdThere: 'Está en la estación Ensayo y hay que mantenerlo pulsado un segundo.',
  noPull: 'No hay ningún ensayo abierto: haga uno o abra uno en el archivo.',
  noVerdict: 'De este ensayo no hay veredicto: su probeta no está en el conjunto abierto.',
  noSet: 'No hay ningún conjunto abierto: abra o empiece uno en la estación Conjunto.',
  setIsOpen: 'Hay un conjunto abierto; ciérrelo antes.',
  readoutIsOpen: 'Hay un indicador abierto; «Dejar de escuchar», en la estación Indicador, lo cierra antes.',
  noReadout: 'No hay ningún indicador abierto.',
  recording: 'Se está registrando un ensayo. Termine antes su registro.',
  notThere: (place) => `Tal como está ahora, la página ${place} no tiene eso para pulsar.`,
  goTo: (place) => `Ir a: ${place}`,
  things: {
    'go-set': {
      also: 'cualificación procedimiento soldador cupón clase ejercicio unión grupo reglas norma veredicto aceptar rechazar decidir juzgar repetición',
    },
    'go-specimen': {
      also: 'medir dimensiones ancho espesor diámetro área calibre muestra longitud pesar pesada pulgadas identidad',
    },
    'go-readout': {
      also: 'puerto serie cable conectar visor lectura perfil usb línea aprender simulada simulación máquina elegir modbus tcp red ethernet segundo instrumento',
    },
    'go-pull': {
      also: 'tracción traccionar tirar vivo carga gráfico pantalla curva empezar registrar umbral disparo regla caída ejes plan',
    },
    'go-fracture': { also: 'fractura lugar rompió metal soldadura base' },
    'go-result': {
      also: 'resistencia límite elástico alargamiento valores números calcular desarrollo fórmula incertidumbre módulo pendiente velocidad tensión verdadera',
    },
    'go-certificate': {
      also: 'informe papel imprimir pdf desviaciones veredicto idioma del certificado español inglés',
    },
    'go-archive': { also: 'anteriores guardados ensayos historial lista' },
    'go-instruments': {
      also: 'registro célula carga extensómetro calibre calibración vencimiento equipo verificación verificar hoja incertidumbre retirar fuera uso baja',
    },
    'go-people': {
      also: 'operador operario inspector usuario nombres personal pin contraseña retirar fuera uso baja',
    },
    'go-self-check': { also: 'validación valores publicados programa verificar' },
    'make-set': {
      name: 'Empezar un conjunto',
      also: 'nuevo cualificación procedimiento soldador cupón clase ejercicio reglas propias',
    },
    'correct-set': { name: 'Corregir el conjunto', also: 'cambiar editar número reglas mínimo metal base' },
    'set-step': { name: 'Dar el paso siguiente del conjunto', also: 'seguir continuar' },
    'close-set': { name: 'Cerrar el conjunto', also: 'dejar guardar' },
    'put-in': {
      name: 'Poner en el conjunto una probeta guardada',
      also: 'añadir incluir meter tomar miembro anterior',
    },
    'next-specimen': { name: 'Empezar la probeta siguiente', also: 'nueva otra medir' },
    'keep-specimen': { name: 'Guardar la probeta', also: 'conservar medidas' },
    listen: { name: 'Escuchar el indicador', also: 'conectar abrir puerto lecturas visor' },
    'learn-lines': {
      name: 'Averiguar cómo habla un indicador',
      also: 'desconocido nuevo visor lectura perfil baudios líneas aprender reconocer',
    },
    'channel-factors': {
      name: 'Fijar escala y desplazamiento de los números de un indicador',
      also: 'factor ganancia calibrar multiplicar corrección voltios',
    },
    'save-profile': {
      name: 'Guardar un perfil en un fichero',
      also: 'exportar intercambiar compartir json otro equipo',
    },
    'stop-listening': {
      name: 'Dejar de escuchar el indicador',
      also: 'desconectar parar cerrar puerto lectura',
    },
    ready: { name: 'Preparar el ensayo', also: 'armar empezar registro tracción listo' },
    zero: { name: 'Tomar el cero', also: 'tara carga extensión poner a cero' },
    start: { name: 'Marcar el inicio del ensayo', also: 'comienzo empezar tracción a mano' },
    markBreak: { name: 'Marcar la rotura', also: 'rota fractura a mano' },
    goOn: {
      name: 'Deshacer la marca de rotura o de fin',
      also: 'anular retirar final error no ha roto continuar',
    },
    stop: { name: 'Marcar el fin del ensayo', also: 'final parar terminar tracción a mano' },
    close: { name: 'Cerrar el registro', also: 'terminar acabar guardar' },
    typed: {
      name: 'Teclear el máximo que muestra la máquina',
      also: 'ensayo escrito escribir tecleado entrada manual a mano sin puerto cable pico valor',
    },
    'add-photo': { name: 'Añadir una foto', also: 'imagen fotografía rota' },
    'take-photo': { name: 'Hacer una foto con la cámara', also: 'imagen fotografía' },
    'after-fracture': {
      name: 'Anotar lo medido tras la rotura',
      also: 'longitud final sección alargamiento estricción mitades',
    },
    'evaluate-again': {
      name: 'Evaluar de nuevo',
      also: 'recalcular motivo opciones paralela desplazamiento ventana elástica pendiente módulo a mano cero corregir resultado ensayo en vacío barra rígida deformación de la máquina incertidumbre',
    },
    'correct-dimensions': {
      name: 'Corregir las dimensiones de esta probeta',
      also: 'ancho espesor diámetro longitud área equivocada medida cambiar',
    },
    board: {
      name: 'Ver el cálculo en la pizarra',
      also: 'cuentas enseñar clase fórmula grande explicar',
    },
    'state-day': {
      name: 'Indicar el día en que se hizo un ensayo importado',
      also: 'fecha cuándo importación día equivocado corregir',
    },
    void: { name: 'Anular un ensayo', also: 'inválido descartar borrar error retirar' },
    'write-certificate': { name: 'Escribir el certificado en PDF', also: 'imprimir informe emitir papel' },
    'pull-certificate': { name: 'Certificado de este ensayo', also: 'informe de una probeta' },
    'decide-otherwise': {
      name: 'Decidir otra cosa que las reglas, repetir o anular',
      also: 'aceptar rechazar contra veredicto motivo ingeniero inspector excepción dispensa desviación',
    },
    sign: { name: 'Firmar el certificado', also: 'firma aprobar testigo' },
    laboratory: {
      name: 'Poner nombre al laboratorio de los certificados',
      also: 'dirección empresa encabezado membrete taller',
    },
    find: {
      name: 'Buscar un ensayo',
      also: 'encontrar probeta colada soldador fecha filtro guardadas columnas ordenar orden límite elástico alargamiento resistencia',
    },
    'lay-over': {
      name: 'Superponer las curvas marcadas',
      also: 'comparar varias juntas diferencia restar menos delta imagen svg gráfico',
    },
    'see-trend': {
      name: 'Ver los resultados en el tiempo',
      also: 'tendencia estadística media dispersión colada soldador límites tolerancia gráfica de control imagen svg',
    },
    'evaluate-found-again': {
      name: 'Evaluar de nuevo todo lo encontrado',
      also: 'recalcular lote muchos comparar método cambios',
    },
    'split-by-year': {
      name: 'Dividir el archivo por años',
      also: 'grande fichero tamaño crecido partir partes año',
    },
    'search-others': {
      name: 'Buscar también en otros archivos',
      also: 'varios ficheros años otro sitio encontrar',
    },
    export: {
      name: 'Exportar este ensayo (tabla, JSON, imagen)',
      also: 'excel hoja de cálculo datos curva csv json pdf svg png ontología enlazados brutos fichero original importado tal como vino',
    },
    check: { name: 'Comprobar el archivo', also: 'íntegro integridad dañado verificar' },
    backup: { name: 'Hacer copia de seguridad del archivo', also: 'respaldo guardar disco' },
    'backup-folder': {
      name: 'Hacer copia en una carpeta, guardando las viejas según su edad',
      also: 'respaldo seguridad directorio disco lápiz usb diaria regular',
    },
    'import-file': { name: 'Importar un fichero de lecturas', also: 'csv texto traer de fuera' },
    'merge-archive': { name: 'Incorporar otro archivo', also: 'unir reunir fusionar' },
    'restore-backup': { name: 'Restaurar una copia de seguridad', also: 'recuperar devolver' },
    'export-results': { name: 'Exportar lo encontrado', also: 'tabla resultados xlsx csv búsqueda' },
    'other-archive': { name: 'Abrir otro archivo', also: 'fichero cambiar' },
    'new-archive': { name: 'Empezar un archivo nuevo', also: 'fichero crear vacío' },
    'add-instrument': {
      name: 'Dar de alta un instrumento',
      also: 'nuevo célula extensómetro máquina calibre registro',
    },
    'add-person': {
      name: 'Dar de alta a una persona',
      also: 'nueva operador operario inspector nombre pin contraseña',
    },
    'run-self-check': { name: 'Hacer la autocomprobación', also: 'ejecutar validar programa publicados' },
    sound: {
      name: 'Poner o quitar el sonido',
      also: 'pitido tono aviso silencio volumen alto bajo alarma señal probar',
    },
    speed: {
      name: 'Elegir la velocidad que hay que mantener',
      also: 'intervalo tensión deformación travesaño método rápido lento',
    },
    'take-back': { name: 'Deshacer', also: 'última elección error atrás recuperar' },
    'bring-again': { name: 'Rehacer', also: 'repetir elección otra vez' },
    larger: { name: 'Todo más grande', also: 'zum ampliar página aumentar tamaño leer texto letra fuente' },
    smaller: { name: 'Todo más pequeño', also: 'zum reducir página tamaño texto letra fuente' },
    'natural-size': { name: 'Todo en su tamaño natural', also: 'zum 100 página más grande pequeño' },
    'full-screen': { name: 'Pantalla completa', also: 'ventana toda pantalla maximizar salir' },
    units: {
      name: 'Cambiar entre unidades SI y de EE. UU.',
      also: 'métrico psi ksi lbf libras pulgadas mpa kn newton',
    },
    choices: {
      name: 'Elegir aspecto, idioma, números y sonido',
      also: 'ajustes preferencias opciones configurar configuración más signo decimal coma punto formato',
    },
    digits: {
      name: 'Cifras de la carga más o menos grandes',
      also: 'tamaño ampliar zum leer lejos escala letra',
    },
    'theme-system': { name: 'Aspecto como el del sistema', also: 'tema colores automático' },
    'theme-chalk': { name: 'Aspecto claro (tiza)', also: 'tema blanco día colores' },
    'theme-soot': { name: 'Aspecto oscuro (hollín)', also: 'tema negro noche colores' },
    'theme-contrast': { name: 'Aspecto de alto contraste', also: 'tema ojos ver vista colores' },
    'language-en': { name: 'English', also: 'idioma inglés language' },
    'language-es': { name: 'Español', also: 'idioma castellano spanish' },
    tour: {
      name: 'Hacer la visita guiada con una probeta simulada',
      also: 'recorrido probar demostración aprender ejemplo ayuda simulación tutorial',
    },
    'leave-tour': { name: 'Dejar la visita guiada', also: 'recorrido terminar salir volver' },
    'what-to-do': { name: 'Decir con palabras propias qué hacer', also: 'campo de órdenes función escribir' },
    guide: { name: 'Leer la guía', also: 'ayuda manual cómo aprender instrucciones documentación' },
    keys: { name: 'Mostrar las teclas', also: 'atajos teclado ayuda' },
    cautions: { name: 'Mostrar las advertencias', also: 'seguridad peligro protección ojos cuidado' },
    about: { name: 'Acerca de Gaugemark', also: 'versión programa licencia' },
  },
};
