import type { MissingView, PlaceParams, PlaceView, PreviewView } from "../../server/protocol/requests";

/** What the extension and the preview's page say to each other. */

/** Extension → page. */
export type ToPage =
  /** Where the cursor stands now; asked about anew in any case, as the text may be another. */
  | { readonly kind: "place"; readonly place: PlaceParams }
  /** The server is another one: nothing that was told of before can be asked for. */
  | { readonly kind: "forget" }
  /** The answer to a question; null where there is none. */
  | { readonly kind: "answer"; readonly number: number; readonly result: unknown }
  | { readonly kind: "do"; readonly action: PageAction };

/** What a person can do in the page by other means than pointing at it. */
export type PageAction =
  | { readonly what: "play" }
  | { readonly what: "stop" }
  /** A click on the note of this number. */
  | { readonly what: "click"; readonly event: number };

/** Page → extension. */
export type FromPage =
  | { readonly kind: "ready" }
  | { readonly kind: "ask"; readonly number: number; readonly request: string; readonly params: unknown }
  /** Nobody waits for this answer any longer. */
  | { readonly kind: "leave"; readonly number: number }
  | { readonly kind: "goTo"; readonly place: PlaceView }
  | { readonly kind: "told"; readonly told: Told };

/** What is told of the page, for the panel's title and for whoever watches. */
export type Told =
  | {
      readonly what: "shown";
      readonly view: Pick<PreviewView, "kind" | "title" | "player"> & {
        readonly missing: readonly MissingView[];
      };
    }
  /** All pictures in sight of the first item are there: so many, with the words of their notes. */
  | {
      readonly what: "notation";
      readonly title: string;
      readonly pictures: number;
      readonly notes: readonly string[];
    }
  /** The notes at which the cursor stands. */
  | { readonly what: "marked"; readonly events: readonly number[] }
  /** A note is marked as it sounds: when it begins, and what the clock of the sound showed. */
  | {
      readonly what: "sounding";
      readonly event: number;
      readonly at: number;
      readonly clock: number;
      readonly yours: boolean;
    }
  | { readonly what: "stopped" }
  /** The page's policy forbade something. */
  | { readonly what: "violation"; readonly words: string };
