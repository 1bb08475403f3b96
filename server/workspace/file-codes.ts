/** What a finding about files and spelling is, for the list that `leadpipe help findings` prints. */
export interface FileCode {
  readonly code: string;
  readonly severity: "error" | "warning" | "note";
  readonly title: string;
  readonly reason: string;
  readonly mend: string;
}

/** The findings about files as such and about text that cannot be read. */
export const FILE_CODES: readonly FileCode[] = [
  {
    code: "unreadable",
    severity: "error",
    title: "A line that cannot be read",
    reason: "What is not understood is left out, and the totals would be wrong without a word.",
    mend: "Write it as the message says.",
  },
  {
    code: "too-deep",
    severity: "error",
    title: "Brackets inside too many brackets",
    reason: "No music nests that deep; a bracket was most likely left open.",
    mend: "Close the brackets that belong closed.",
  },
  {
    code: "odd-letter",
    severity: "error",
    title: "A letter that cannot be seen",
    reason: "Control characters come in by pasting and make two names differ that look alike.",
    mend: "Delete it and type the name again.",
  },
  {
    code: "file-unreadable",
    severity: "error",
    title: "A file that cannot be opened",
    reason: "What it holds is missing from every total.",
    mend: "Check its name and whether you may read it.",
  },
  {
    code: "file-too-large",
    severity: "error",
    title: "A file larger than 4 MB",
    reason: "No plan is that long; it is most likely another kind of file.",
    mend: "Split it into several files, or rename it if it is no plan.",
  },
  {
    code: "file-not-text",
    severity: "error",
    title: "A file that is not plain text in UTF-8",
    reason: "Only plain text can be read as a plan.",
    mend: "Save it again as plain text, encoding UTF-8.",
  },
  {
    code: "file-empty",
    severity: "note",
    title: "A file with nothing in it",
    reason: "It may have been saved too early.",
    mend: "Write in it or delete it.",
  },
  {
    code: "use-missing",
    severity: "error",
    title: "A used file that is not there",
    reason: "Everything it declares is unknown here.",
    mend: "Correct the path; it starts from the folder of this file.",
  },
  {
    code: "use-circle",
    severity: "note",
    title: "Files that use each other in a circle",
    reason: "Each is read once, so nothing is lost; but one of the lines is not needed.",
    mend: "Leave out the use line that points back.",
  },
  {
    code: "use-case",
    severity: "warning",
    title: "Capital and small letters that differ from the file's name",
    reason: "It works on some computers and fails on others.",
    mend: "Write the name exactly as the file has it.",
  },
  {
    code: "use-twice",
    severity: "warning",
    title: "The same file used twice",
    reason: "Once is enough, and the second line misleads.",
    mend: "Delete the second use line.",
  },
];

/** The severity a code starts with. */
export function startingSeverity(code: string): FileCode["severity"] {
  return FILE_CODES.find((each) => each.code === code)?.severity ?? "error";
}
