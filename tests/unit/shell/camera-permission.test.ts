/** Who may have the camera's picture. Electron's security checklist, "Handle session permission requests from remote content". */
import { describe, expect, it } from 'vitest';
import { type AskedPermission, isCameraPicture } from '../../../electron/main/camera/camera-permission.ts';

const SHEET: AskedPermission = {
  permission: 'media',
  mediaTypes: ['video'],
  address: 'gaugemark://page/camera.html?language=en&theme=chalk',
  isTopFrame: true,
  bySheet: true,
};

describe('the picture of the camera', () => {
  it('is for the sheet that is open', () => {
    expect(isCameraPicture(SHEET)).toBe(true);
  });

  it.each<[string, Partial<AskedPermission>]>([
    ['another page, the program’s own included', { bySheet: false }],
    ['the same window showing another page of ours', { address: 'gaugemark://page/index.html' }],
    ['an address that only begins like the sheet’s', { address: 'gaugemark://page/camera.html.example' }],
    ['another scheme', { address: 'https://page/camera.html' }],
    ['no address', { address: '' }],
    ['a frame within the sheet', { isTopFrame: false }],
    ['sound', { mediaTypes: ['audio'] }],
    ['sound along with the picture', { mediaTypes: ['video', 'audio'] }],
    ['media of no kind that was named', { mediaTypes: [] }],
    ['a kind that nobody knows', { mediaTypes: ['unknown'] }],
    ['the screen', { permission: 'display-capture' }],
    ['where the machine stands', { permission: 'geolocation', mediaTypes: [] }],
  ])('is not for %s', (_who, change) => {
    expect(isCameraPicture({ ...SHEET, ...change })).toBe(false);
  });
});
