/** A fenced block of a document. */
export interface Block {
  readonly language: string;
  readonly text: string;
  /** Where the text begins and ends in the document. */
  readonly start: number;
  readonly end: number;
}

/** The fenced blocks of a Markdown text, in order. */
export function blocksOf(markdown: string): readonly Block[] {
  const fence = /^```(\w+)\n([\s\S]*?)^```$/gm;
  return [...markdown.matchAll(fence)].map((match) => {
    const [, language = "", text = ""] = match;
    const start = match.index + "```".length + language.length + 1;
    return { language, text, start, end: start + text.length };
  });
}

/** The command of a console block, and what the document says it prints. */
export function consoleOf(block: Block): { readonly command: string; readonly printed: string } {
  const [first = "", ...rest] = block.text.split("\n");
  if (!first.startsWith("$ ")) throw new Error(`A console block begins with “$ ”, not with “${first}”.`);
  return { command: first.slice(2), printed: rest.join("\n") };
}

/** The words of a simple command line: parted by spaces, or kept together by double quotes. */
export function wordsOf(command: string): readonly string[] {
  return [...command.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2] ?? "");
}

/** Where the links of a Markdown text lead; code is no place for links. */
export function linksOf(markdown: string): readonly string[] {
  const prose = markdown.replace(/^```[\s\S]*?^```$/gm, "").replace(/`[^`\n]*`/g, "");
  return [...prose.matchAll(/\]\(([^)\s]+)\)/g)].map((match) => match[1] ?? "");
}

/** The anchors that the headings of a Markdown text give. */
export function anchorsOf(markdown: string): ReadonlySet<string> {
  const headings = markdown.matchAll(/^#+ (.+)$/gm);
  return new Set(
    [...headings].map(([, heading = ""]) =>
      heading
        .toLowerCase()
        .replace(/[^\p{L}\p{N}\s_-]/gu, "")
        .replaceAll(" ", "-"),
    ),
  );
}
