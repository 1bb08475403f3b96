import * as vscode from "vscode";

/**
 * A file system in memory under the scheme `sample:`, so that a suite has real, saved files in an editor that
 * has no disk at all.
 */
export class SampleFiles implements vscode.FileSystemProvider {
  private readonly files = new Map<string, { readonly bytes: Uint8Array; readonly mtime: number }>();
  private readonly changed = new vscode.EventEmitter<vscode.FileChangeEvent[]>();
  readonly onDidChangeFile = this.changed.event;

  watch(): vscode.Disposable {
    return new vscode.Disposable(() => {});
  }
  stat(uri: vscode.Uri): vscode.FileStat {
    const file = this.files.get(uri.path);
    if (file) return { type: vscode.FileType.File, ctime: 0, mtime: file.mtime, size: file.bytes.length };
    if (this.readDirectory(uri).length > 0)
      return { type: vscode.FileType.Directory, ctime: 0, mtime: 0, size: 0 };
    throw vscode.FileSystemError.FileNotFound(uri);
  }
  readDirectory(uri: vscode.Uri): [string, vscode.FileType][] {
    const inside = uri.path.endsWith("/") ? uri.path : `${uri.path}/`;
    const entries = new Map<string, vscode.FileType>();
    for (const path of this.files.keys()) {
      if (!path.startsWith(inside)) continue;
      const [name = "", ...deeper] = path.slice(inside.length).split("/");
      entries.set(name, deeper.length > 0 ? vscode.FileType.Directory : vscode.FileType.File);
    }
    return [...entries];
  }
  readFile(uri: vscode.Uri): Uint8Array {
    const file = this.files.get(uri.path);
    if (!file) throw vscode.FileSystemError.FileNotFound(uri);
    return file.bytes;
  }
  writeFile(uri: vscode.Uri, bytes: Uint8Array): void {
    const type = this.files.has(uri.path) ? vscode.FileChangeType.Changed : vscode.FileChangeType.Created;
    this.files.set(uri.path, { bytes, mtime: Date.now() });
    this.changed.fire([{ type, uri }]);
  }
  delete(uri: vscode.Uri): void {
    this.files.delete(uri.path);
    this.changed.fire([{ type: vscode.FileChangeType.Deleted, uri }]);
  }
  rename(from: vscode.Uri, to: vscode.Uri): void {
    this.writeFile(to, this.readFile(from));
    this.delete(from);
  }
  createDirectory(): void {}
}
