/** Two numbers by which the recorder steers the thread that splits: 1 in the first stops it, 1 in the second holds it up. */
export const STOP = 0;
export const HELD_UP = 1;

export const splitControl = (): Int32Array<SharedArrayBuffer> => new Int32Array(new SharedArrayBuffer(8));
