/** Files that a page carries in itself, as the builder hands them out. */
declare module "*.woff2?inline" {
  /** A `data:` address. */
  const address: string;
  export default address;
}
