import { joined } from "./workspace/paths";

/**
 * Addresses as the protocol writes them, and the paths this house knows files by. An address is given back just
 * as the editor wrote it, for editors compare them letter by letter.
 */
export class Addresses {
  private readonly asWritten = new Map<string, string>();
  /** The opened folders, with the addresses of their insides. */
  private roots: readonly { readonly path: string; readonly uri: string }[] = [];
  /** File systems whose addresses name a host (`scheme://host/path`), and those that do not. */
  private readonly withHost = new Map<string, boolean>();

  setFolders(uris: readonly string[]): void {
    this.roots = uris.map((uri) => ({ path: this.pathOf(uri), uri: uri.replace(/\/+$/, "") }));
  }

  get folders(): readonly string[] {
    return this.roots.map(({ path }) => path);
  }

  /** The path of an address. A file that was never saved is taken to lie in the first folder. */
  pathOf(uri: string): string {
    const path = this.plainPath(uri);
    // The editor's own spelling of it is kept, also where another one came first.
    if (this.asWritten.get(path) !== uri) this.asWritten.set(path, uri);
    return path;
  }

  /** The address of a path, as the editor wrote it or would write it. */
  uriOf(path: string): string {
    const written = this.asWritten.get(path);
    if (written !== undefined) return written;
    const root = this.roots.find((each) => path.startsWith(`${each.path}/`));
    if (root !== undefined) return root.uri + encoded(path.slice(root.path.length));
    const virtual = /^([A-Za-z][\w+.-]+):\/(.*)$/.exec(path);
    if (virtual !== null) {
      const [, scheme = "", tail = ""] = virtual;
      return `${scheme}:${this.withHost.get(scheme) === true ? "//" : "/"}${encoded(tail)}`;
    }
    const drive = /^([A-Za-z]):\/(.*)$/.exec(path);
    if (drive !== null) return `file:///${drive[1]?.toLowerCase()}%3A/${encoded(drive[2] ?? "")}`;
    // Of a share of another computer the host comes first: `//host/share`.
    if (path.startsWith("//")) return `file:${encoded(path)}`;
    return path.startsWith("/") ? `file://${encoded(path)}` : path;
  }

  /** A file that is nowhere any more: how its address was written need not be known. */
  forget(path: string): void {
    this.asWritten.delete(path);
  }

  /** The path of an address that nobody will be given back. */
  plainPath(uri: string): string {
    const parts = /^([A-Za-z][\w+.-]*):(?:\/\/([^/?#]*))?([^?#]*)(.*)$/.exec(uri);
    if (parts === null) return uri;
    const [, scheme = "", authority, tail = "", more = ""] = parts;
    const path = decoded(tail);
    if (scheme === "untitled") {
      // Where the editor says what it will be called, that is its path.
      if (path.startsWith("/")) return slashless(path);
      return joined(this.roots[0]?.path ?? "", path);
    }
    if (scheme === "file") {
      const share = authority === undefined || authority === "" ? "" : `//${authority}`;
      return slashless(share + path);
    }
    // One slash alone, for a path's parts are told apart by it; the host is the first of them.
    const host = authority !== undefined && authority !== "";
    this.withHost.set(scheme, host);
    return `${scheme}:${host ? `/${authority}` : ""}${slashless(path)}${more}`;
  }
}

/** Whether a path is one of a disk, and not of a file system that the editor speaks for. */
export function isOnDisk(path: string): boolean {
  return path.startsWith("/") || /^[A-Za-z]:\//.test(path);
}

/** `/c:/x` is a path below a drive; a slash at the end says nothing. */
function slashless(path: string): string {
  const bare = /^\/[A-Za-z]:(\/|$)/.test(path) ? path[1]?.toLowerCase() + path.slice(2) : path;
  return bare.length > 1 ? bare.replace(/\/+$/, "") : bare;
}

function decoded(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

/** Written as editors write it: everything but letters, digits, and `-._~` by its number. */
function encoded(path: string): string {
  return path
    .split("/")
    .map((part) =>
      encodeURIComponent(part).replace(
        /[!'()*]/g,
        (sign) => `%${sign.charCodeAt(0).toString(16).toUpperCase()}`,
      ),
    )
    .join("/");
}
