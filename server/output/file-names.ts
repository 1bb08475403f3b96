/** What no common file system takes in a name, or takes and then trips over. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are among them.
const UNFIT = /[\u0000-\u001f\u007f<>:"/\\|?*]/g;
/** Names that mean devices where files are kept by letters of drives. */
const DEVICE = /^(con|prn|aux|nul|com\d|lpt\d)$/i;
/** In bytes: file systems take 255, and a draft's name is longer. */
const LONGEST = 180;

/** Names of files after the names of things: fit for any file system, and no two alike, whatever their case. */
export function fileNames(names: readonly string[], ending: string): readonly string[] {
  const taken = new Set<string>();
  return names.map((name) => {
    const plain = plainName(name);
    let fit = plain;
    for (let n = 2; taken.has(fit.toLowerCase()); n++) fit = `${plain} (${n})`;
    taken.add(fit.toLowerCase());
    return fit + ending;
  });
}

function plainName(name: string): string {
  let fit = name
    .normalize("NFC")
    .replace(UNFIT, "-")
    .trim()
    .replace(/^\.+|\.+$/g, "");
  while (new TextEncoder().encode(fit).length > LONGEST) fit = [...fit].slice(0, -1).join("");
  fit = fit.trim();
  if (fit === "") return "exercise";
  return DEVICE.test(fit) ? `${fit} exercise` : fit;
}
