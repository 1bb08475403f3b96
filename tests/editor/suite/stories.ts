/**
 * What is tried in every editor, in this order. The titles stand apart from what they name, so that whoever reads the
 * results outside of the editor knows which must have come.
 */
export const STORIES = [
  "starts when a plan is opened, not before, and in time",
  "a key too high on a Tuesday is marked, mended, and marked again by undo",
  "completion offers exercises and keys",
  "a hover tells what a name means",
  "a hover shows the music of a line",
  "the preview goes along with the cursor and shows the notes",
  "a click on a note leads to the text, and the cursor marks the note",
  "half-written music is shown as far as it goes",
  "notes are marked as they sound",
  "an exercise is written for other programs, and nothing is replaced unasked",
  "a rename goes through all files",
  "the outline holds the terms",
  "the side view tells weeks and days, leads to the line, and follows the editor",
  "the status item tells the day under the cursor",
  "the report of a term follows the text, and is kept as a file",
  "a plan is compared with the last commit, or it is said why not",
  "a plan is compared with another, with notation side by side",
  "a term is begun from another, and what was left out is shown",
  "a day is printed to a file, and nothing is replaced unasked",
  "a week is printed into a folder, a file for each player",
  "a packet is printed of a book that lies on no disk",
  "a new studio checks clean and writes over nothing",
  "a server that ends comes back; one that keeps ending is left alone until asked for",
  "a studio on no disk is read through the editor",
  "a plan that was never saved is checked",
  "a book that is deleted while it is open holds until it is closed",
  "a second folder is checked while it is open",
  "a studio is checked whether its folder is trusted or not",
] as const;

export type Story = (typeof STORIES)[number];

/** What the parts of Neovim's check are called. */
export const NEOVIM_CHECKS = ["starts", "findings", "hover", "mend and undo", "rename", "stops"] as const;
