import { has } from "./expectations";
import { leadpipe } from "./leadpipe";
import { at, hoverWith, sample, show } from "./plans";

/** A hover shows the exercise in the key that its line asks for. */
export async function hoverPicture(): Promise<void> {
  await leadpipe();
  const uri = sample("2026-27", "summer.practice");
  const { document } = await show(uri);
  const words = await hoverWith(uri, at(document, '"From the bridge"  in', 3), "data:image/svg+xml;base64,");
  has(words, "![From the bridge, C major");
  if (words.length > 100_000) throw new Error(`a hover of ${words.length} signs would be cut`);
}
