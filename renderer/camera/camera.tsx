/** Entry of the camera's sheet, a page of its own: it is told its looks, shows the camera, and says what became of it. */
import '../no-code-from-text.ts';
import { render } from 'preact';
import { type CameraBridge, cameraLooks } from '../../core/contract/camera-messages.ts';
import { applyTheme } from '../design/theme.ts';
import { changeView } from '../store/view-settings.ts';
import { CameraSheet } from './camera-sheet.tsx';
import '../design/base.css';

declare global {
  /** Put there by the preload script before the page runs. */
  var gaugemarkCamera: CameraBridge;
}

const at = document.getElementById('page');
if (at === null) throw new Error('camera.html has no element "page"');
changeView(cameraLooks.parse(Object.fromEntries(new URLSearchParams(location.search))));
applyTheme(document.documentElement);
render(<CameraSheet bridge={gaugemarkCamera} />, at);
