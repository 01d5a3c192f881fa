/** CSS pixels of a millimetre of a drawing at the usual size of print: letters of 2.8 mm are then 14 px high. */
export const CSS_PX_PER_MM = 5;
