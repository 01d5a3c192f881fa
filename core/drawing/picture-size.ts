/** Paper of a picture that is saved: a page across, margins off. */
export const PICTURE_WIDTH_MM = 260;
export const PICTURE_HEIGHT_MM = 165;

/** Of one name below a picture, and of a row of them. */
const NAME_WIDTH_MM = 52;
const SIDES_MM = 8;
const ROW_MM = 4.2;

/** Height of a picture with so many names below it, which must not press it flat. */
export function pictureHeightMm(names: number): number {
  return (
    PICTURE_HEIGHT_MM + Math.ceil(names / Math.floor((PICTURE_WIDTH_MM - SIDES_MM) / NAME_WIDTH_MM)) * ROW_MM
  );
}
