import { carriedOver, carryCheck, carryChoices } from "./features/carry-over";
import { codeActionsAt } from "./features/code-actions";
import { codeLensesOf } from "./features/code-lens";
import { comparedPlans } from "./features/compare";
import { completionAt } from "./features/completion";
import { resolvedCompletion } from "./features/completion-resolve";
import { dayStatus } from "./features/day-status";
import { definition } from "./features/definition";
import { diagnosticsOf } from "./features/diagnostics";
import { documentHighlights } from "./features/document-highlight";
import { documentSymbols } from "./features/document-symbols";
import { exportedMusic } from "./features/export-music";
import { foldingRanges } from "./features/folding";
import { formatDocument, formatRange } from "./features/formatting";
import { hoverAt } from "./features/hover";
import { hoverNotation } from "./features/hover-notation";
import { inlayHintsIn } from "./features/inlay-hints";
import { documentLinks } from "./features/links";
import { newStudio, studioChoices } from "./features/new-studio";
import { formatOnType } from "./features/on-type-formatting";
import { previewOf } from "./features/preview";
import { previewNotation } from "./features/preview-notation";
import { previewSound } from "./features/preview-sound";
import { printPlan } from "./features/print";
import { printChoices } from "./features/print-choices";
import { references } from "./features/references";
import { prepareRename, rename } from "./features/rename";
import { selectionRanges } from "./features/selection-ranges";
import { semanticTokens, semanticTokensInRange } from "./features/semantic-tokens";
import { termReportOf } from "./features/term-report";
import { termView } from "./features/term-view";
import { workspaceSymbols } from "./features/workspace-symbols";

/** Everything the server can be asked for; handed to it, so that it works with any other table of the kind. */
export const FEATURES = {
  carriedOver,
  carryCheck,
  carryChoices,
  codeActionsAt,
  codeLensesOf,
  comparedPlans,
  completionAt,
  dayStatus,
  definition,
  diagnosticsOf,
  documentHighlights,
  documentLinks,
  documentSymbols,
  exportedMusic,
  foldingRanges,
  formatDocument,
  formatOnType,
  formatRange,
  hoverAt,
  hoverNotation,
  inlayHintsIn,
  newStudio,
  prepareRename,
  previewNotation,
  previewOf,
  previewSound,
  printChoices,
  printPlan,
  references,
  rename,
  resolvedCompletion,
  selectionRanges,
  semanticTokens,
  semanticTokensInRange,
  studioChoices,
  termReportOf,
  termView,
  workspaceSymbols,
} as const;

export type Features = typeof FEATURES;
