/** A picture that is built into the page: its address. */
declare module '*.png' {
  const address: string;
  export default address;
}
