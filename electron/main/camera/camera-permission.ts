/** The one thing that is granted to a page, and to which: the picture of the camera, to the sheet that shows it. Pure. */
import { CAMERA_ADDRESS } from '../page-address.ts';

export interface AskedPermission {
  /** Electron's name of it. */
  readonly permission: string;
  /** Of a permission for media: what is asked for together. */
  readonly mediaTypes: readonly string[];
  /** Address of the frame that asks. */
  readonly address: string;
  readonly isTopFrame: boolean;
  /** By the sheet that is open now, and not by any other page. */
  readonly bySheet: boolean;
}

/** Never with sound: a request for both is refused as a whole. */
export function isCameraPicture(asked: AskedPermission): boolean {
  const { permission, mediaTypes, address, isTopFrame, bySheet } = asked;
  return (
    permission === 'media' &&
    mediaTypes.length > 0 &&
    mediaTypes.every((type) => type === 'video') &&
    isTopFrame &&
    bySheet &&
    URL.canParse(address) &&
    addressWithoutQuery(address) === CAMERA_ADDRESS
  );
}

export function addressWithoutQuery(address: string): string {
  return address.split(/[?#]/, 1)[0] ?? '';
}
