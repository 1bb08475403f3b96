import type { Connection } from "vscode-languageserver";
import {
  FILES_REQUEST,
  type FilesParams,
  type FilesResult,
  TEXT_REQUEST,
  type TextParams,
  type TextResult,
} from "./protocol/requests";
import { type Addresses, isOnDisk } from "./serve-addresses";
import type { Disk, Listing } from "./workspace/disk";
import { folded, folderOf } from "./workspace/paths";
import { acceptable, NOT_UTF8, tooLarge } from "./workspace/plan-bytes";
import type { Failure } from "./workspace/source";

/** Files that only the editor can read, asked for by our own requests. */
export class RemoteDisk implements Disk {
  private listed: readonly string[] = [];

  constructor(
    private readonly connection: Connection,
    private readonly addresses: Addresses,
  ) {}

  async list(folders: readonly string[]): Promise<Listing> {
    const params: FilesParams = { folders: folders.map((each) => this.addresses.uriOf(each)) };
    const uris =
      folders.length === 0 ? [] : await this.connection.sendRequest<FilesResult>(FILES_REQUEST, params);
    this.listed = uris.map((uri) => this.addresses.pathOf(uri)).sort();
    return { paths: this.listed, aliases: new Map() };
  }

  async read(path: string): Promise<string | Failure | undefined> {
    const uri = this.addresses.uriOf(path);
    // Above the top of a file system there is nothing to ask for.
    if (!/^[A-Za-z][\w+.-]*:\//.test(uri)) return undefined;
    const params: TextParams = { uri };
    const result = await this.connection.sendRequest<TextResult>(TEXT_REQUEST, params);
    if ("text" in result) return acceptable(result.text);
    switch (result.trouble) {
      case "missing":
        return undefined;
      case "too-large":
        return tooLarge();
      case "not-text":
        return NOT_UTF8;
      case "unreadable":
        return { code: "file-unreadable", message: "This file cannot be opened." };
    }
  }

  async beside(folder: string): Promise<readonly string[]> {
    return this.listed.filter((path) => folded(folderOf(path)) === folded(folder));
  }
}

/** A computer's own disk for what lies on it, and the editor for the rest, as far as there is either. */
export class JoinedDisk implements Disk {
  constructor(
    private readonly own: Disk | undefined,
    private readonly remote: Disk | undefined,
  ) {}

  async list(folders: readonly string[], looked?: (folders: number) => void): Promise<Listing> {
    const own = folders.filter((each) => this.diskOf(each) === this.own);
    const remote = folders.filter((each) => this.diskOf(each) !== this.own);
    const lists = await Promise.all([this.own?.list(own, looked), this.remote?.list(remote)]);
    return {
      paths: lists.flatMap((each) => each?.paths ?? []),
      aliases: new Map(lists.flatMap((each) => [...(each?.aliases ?? [])])),
    };
  }

  async read(path: string): Promise<string | Failure | undefined> {
    return this.diskOf(path)?.read(path);
  }

  async beside(folder: string): Promise<readonly string[]> {
    return (await this.diskOf(folder)?.beside(folder)) ?? [];
  }

  private diskOf(path: string): Disk | undefined {
    return this.own !== undefined && isOnDisk(path) ? this.own : this.remote;
  }
}
