import type { Failure } from "./source";

/** Where an editor's files lie: a real disk, or one that the editor speaks for. */
export interface Disk {
  /**
   * The plan files of these folders and those below, hidden folders passed over. `looked` is called now and then with
   * the number of folders that were looked into.
   */
  list(folders: readonly string[], looked?: (folders: number) => void): Promise<Listing>;
  /** The text of a file, why it cannot be read, or undefined where there is none. */
  read(path: string): Promise<string | Failure | undefined>;
  /** The plan files that lie directly in a folder, so that a name may differ in capitals or in its signs. */
  beside(folder: string): Promise<readonly string[]>;
}

export interface Listing {
  readonly paths: readonly string[];
  /** Other names (symbolic links) of files, each with the path it is read under. */
  readonly aliases: ReadonlyMap<string, string>;
}
