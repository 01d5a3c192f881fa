/** Runs in the isolated world of the camera's sheet: one function to say what became of the picture, nothing else. */
import { contextBridge, ipcRenderer } from 'electron';
import { CHANNELS } from '../main/channels.ts';

contextBridge.exposeInMainWorld('gaugemarkCamera', {
  say: (message: unknown): void => ipcRenderer.send(CHANNELS.camera, message),
});
