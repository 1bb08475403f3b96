/**
 * Paths as plain text with forward slashes, so that a set of files can be checked where there is no disk. A
 * path is only ever compared with other paths of the same set.
 */

/** The folder a file lies in; `""` where the path names none, `"/"` at the top. */
export function folderOf(path: string): string {
  const at = path.lastIndexOf("/");
  return at < 0 ? "" : at === 0 ? "/" : path.slice(0, at);
}

/** The last part of a path. */
export function fileName(path: string): string {
  return path.slice(path.lastIndexOf("/") + 1);
}

/**
 * A path spelt so that two of the same letters are the same text: some computers write an accented letter of a name
 * as one sign, others as two, and an archive carries that along.
 */
export function composed(path: string): string {
  return path.normalize("NFC");
}

/** The same for two paths that differ in capitals alone, if at all. */
export function folded(path: string): string {
  return composed(path).toLowerCase();
}

/** Of some paths or names the one that is spelt like this, or else one that differs from it in capitals alone. */
export function alikeIn(paths: readonly string[], wanted: string): string | undefined {
  return (
    paths.find((each) => each === wanted) ??
    paths.find((each) => composed(each) === composed(wanted)) ??
    paths.find((each) => folded(each) === folded(wanted))
  );
}

/** A path below a folder. */
export function joined(folder: string, name: string): string {
  if (folder === "") return name;
  return folder.endsWith("/") ? folder + name : `${folder}/${name}`;
}

/** The path that `written` means in a file of this folder, without `.` and `..` where they can be resolved. */
export function resolved(folder: string, written: string): string {
  const typed = written.replaceAll("\\", "/");
  const whole = isWhole(typed) ? typed : joined(folder, typed);
  // A file on a share of another computer lies below its host: `//host/share`.
  const top = folder.startsWith("//") && whole.startsWith("//") ? "//" : whole.startsWith("/") ? "/" : "";
  const parts: string[] = [];
  for (const part of whole.split("/")) {
    if (part === "" || part === ".") continue;
    if (part === ".." && parts.length > 0 && parts[parts.length - 1] !== "..") parts.pop();
    else if (part !== ".." || top === "") parts.push(part);
  }
  return top + parts.join("/");
}

/** The folders from this one up to the top, nearest first. */
export function foldersUp(folder: string): readonly string[] {
  const folders = [folder];
  for (let at = folder; at !== "" && at !== "/"; ) {
    const above = folderOf(at);
    folders.push(above);
    at = above;
  }
  return folders;
}

/** A path as it would be written in a `use` line of a file in `folder`. */
export function relativePath(folder: string, path: string): string {
  const from = folder.split("/").filter((part) => part !== "");
  const to = path.split("/").filter((part) => part !== "");
  let same = 0;
  while (same < from.length && same < to.length - 1 && from[same] === to[same]) same++;
  return [...from.slice(same).map(() => ".."), ...to.slice(same)].join("/");
}

function isWhole(path: string): boolean {
  return path.startsWith("/") || /^[A-Za-z]:\//.test(path);
}
