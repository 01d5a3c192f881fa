/** The part of the library that the tests use; it brings no types of its own. */
declare module 'js-quantities' {
  interface Quantity {
    to(unit: string): Quantity;
    readonly scalar: number;
  }
  export default function Qty(value: number, unit: string): Quantity;
}
