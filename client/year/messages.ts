/** What the extension and a page about a term say to each other. */

/** Extension → page: what stands in it now. */
export type ToYearPage = { readonly kind: "body"; readonly body: string };

/** Page → extension. */
export type FromYearPage =
  | { readonly kind: "ready" }
  /** It is shown: its headings, and how many tables and pictures there are to be seen. */
  | {
      readonly kind: "shown";
      readonly headings: readonly string[];
      readonly tables: number;
      readonly pictures: number;
    }
  /** The page's policy forbade something. */
  | { readonly kind: "violation"; readonly words: string };
