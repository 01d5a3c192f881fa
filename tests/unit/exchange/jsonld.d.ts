/** The one function of jsonld that the tests use; the package has no types of its own. */
declare module 'jsonld' {
  interface Term {
    readonly termType: 'NamedNode' | 'BlankNode' | 'Literal' | 'DefaultGraph';
    readonly value: string;
    readonly datatype?: { readonly value: string };
  }
  interface Quad {
    readonly subject: Term;
    readonly predicate: Term;
    readonly object: Term;
  }
  const jsonld: { toRDF(document: object, options?: { safe?: boolean }): Promise<Quad[]> };
  export default jsonld;
}
