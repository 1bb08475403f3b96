import { type CancellationToken, ResponseError } from "vscode-languageserver";
import type { PictureDraft } from "./features/preview-notation";
import { inColour } from "./notation/clean-svg";
import { base64 } from "./output/base64";
import { withMarks } from "./pages/notation-marks";
import {
  EXPORT_REQUEST,
  type ExportParams,
  type ExportResult,
  type MusicAsk,
  NOTATION_REQUEST,
  type NotationParams,
  type NotationResult,
  PICTURE_REQUEST,
  type PictureParams,
  type PictureResult,
  PREVIEW_REQUEST,
  type PreviewParams,
  type PreviewResult,
  SOUND_REQUEST,
  type SoundParams,
  type SoundResult,
} from "./protocol/requests";
import type { RequestsGround } from "./serve-requests";

/** Pictures that can be asked for after their notation was told of: some pages of the longest pieces. */
const MOST_DRAFTS = 1200;

/** Wires the requests of the preview, of listening and of files for other programs to their features. */
export function answerPreview(ground: RequestsGround): void {
  const { connection, workspace, addresses, answers, features, pictures } = ground;
  const drafts = new Drafts();

  connection.onRequest<PreviewResult, void>(
    PREVIEW_REQUEST,
    (params: PreviewParams, token: CancellationToken) => {
      const path = addresses.pathOf(params.uri);
      return answers.about<PreviewResult>(
        "preview",
        path,
        token,
        () => features.previewOf(workspace.checked, path, params, addresses) ?? null,
        null,
        false,
      );
    },
  );

  /** What is asked about music is answered from the plan in whose words it is meant. */
  function aboutMusic<P extends { readonly music: MusicAsk }, R>(
    what: string,
    params: P,
    token: CancellationToken,
    work: () => R | null,
  ): Promise<R | null | ResponseError<never>> {
    return answers.about<R | null>(what, addresses.pathOf(params.music.uri), token, work, null, false);
  }

  connection.onRequest<NotationResult, void>(
    NOTATION_REQUEST,
    (params: NotationParams, token: CancellationToken) =>
      aboutMusic("notation", params, token, () => {
        const notation = features.previewNotation(workspace.checked, params, addresses, addresses);
        if (notation === undefined) return null;
        const fresh = drafts.keep(notation.drafts);
        // After an edit one line is new, and is asked for next; of new music the page asks for what is in sight.
        if (fresh.length === 1 && fresh[0] !== undefined) pictures?.begin(fresh[0].task);
        return notation.view;
      }),
  );
  connection.onRequest<PictureResult, void>(
    PICTURE_REQUEST,
    async ({ name }: PictureParams, token: CancellationToken): Promise<PictureResult> => {
      const draft = drafts.get(name);
      if (draft === undefined) return { trouble: "", unknown: true };
      const svg = await pictures?.engraved(draft.task, token);
      if (svg === undefined) {
        if (token.isCancellationRequested) return null;
        return { trouble: "This line of music could not be drawn.", unknown: false };
      }
      return { svg: withMarks(svg, draft.marks), notes: draft.notes() };
    },
  );
  connection.onRequest<SoundResult, void>(SOUND_REQUEST, (params: SoundParams, token: CancellationToken) =>
    aboutMusic(
      "sound",
      params,
      token,
      () => features.previewSound(workspace.checked, params, addresses) ?? null,
    ),
  );
  connection.onRequest<ExportResult, void>(
    EXPORT_REQUEST,
    async (params: ExportParams, token: CancellationToken) => {
      const path = addresses.pathOf(params.uri);
      const failed = { trouble: "The file could not be made; the output says why." };
      const exported = await answers.about(
        "export",
        path,
        token,
        () => features.exportedMusic(workspace.checked, path, params),
        failed,
        false,
      );
      if (exported instanceof ResponseError || "trouble" in exported) return exported;
      const { fileName, content } = exported;
      if (typeof content === "string") return { fileName, bytes: base64(new TextEncoder().encode(content)) };
      if (content instanceof Uint8Array) return { fileName, bytes: base64(content) };
      const svg = await pictures?.engraved(content, token);
      if (svg === undefined) return { trouble: "The picture could not be drawn." };
      return { fileName, bytes: base64(new TextEncoder().encode(inColour(svg, "black"))) };
    },
  );
}

/** Pictures by name, the ones told of longest ago dropped first. */
class Drafts {
  private readonly drafts = new Map<string, PictureDraft>();

  /** Keeps what was told of; gives back what was not known before. */
  keep(told: ReadonlyMap<string, PictureDraft>): readonly PictureDraft[] {
    const fresh: PictureDraft[] = [];
    for (const [name, draft] of told) {
      if (!this.drafts.has(name)) fresh.push(draft);
      this.drafts.delete(name);
      this.drafts.set(name, draft);
    }
    for (const oldest of this.drafts.keys()) {
      if (this.drafts.size <= MOST_DRAFTS) break;
      this.drafts.delete(oldest);
    }
    return fresh;
  }

  get(name: string): PictureDraft | undefined {
    return this.drafts.get(name);
  }
}
