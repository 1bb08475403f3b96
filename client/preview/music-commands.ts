import * as vscode from "vscode";
import type { ExportParams } from "../../server/protocol/requests";
import { awake } from "../awake";
import type { ServerKeeper } from "../server-keeper";
import type { MayReplace } from "../write-asked";
import { exportMusic } from "./export";
import type { Preview } from "./preview";

/** Registers what has to do with seeing, hearing and writing music. Titles stand in the manifest. */
export function registerMusicCommands(keeper: ServerKeeper, preview: Preview): vscode.Disposable[] {
  const register = vscode.commands.registerCommand;
  const writing =
    (form: ExportParams["form"]) =>
    async (target?: vscode.Uri, mayReplace?: MayReplace): Promise<vscode.Uri | undefined> => {
      await awake(keeper);
      // From a menu the editor hands over its own file, which is nothing to be written to.
      const named = typeof mayReplace === "function" && target instanceof vscode.Uri;
      return named ? exportMusic(keeper, form, target, mayReplace) : exportMusic(keeper, form);
    };
  return [
    register("leadpipe.showMusic", () => preview.open()),
    register("leadpipe.playMusic", () => {
      if (!preview.isOpen) preview.open();
      preview.act({ what: "play" });
    }),
    register("leadpipe.stopMusic", () => {
      if (preview.isOpen) preview.act({ what: "stop" });
    }),
    register("leadpipe.writeMusicXml", writing("musicxml")),
    register("leadpipe.writeMidi", writing("midi")),
    register("leadpipe.writePicture", writing("svg")),
  ];
}
