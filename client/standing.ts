import * as vscode from "vscode";
import type { FigureView, Standing } from "../server/protocol/requests";

/**
 * How the standing of a day or a week is shown: a word, and a sign whose colour only repeats what both say.
 */
export function standingWord(standing: Standing): string {
  switch (standing) {
    case "over":
      return vscode.l10n.t("over");
    case "near":
      return vscode.l10n.t("near");
    case "within":
      return vscode.l10n.t("within");
    case "closed":
      return vscode.l10n.t("closed");
    case "light":
      return vscode.l10n.t("light");
    case "concert":
      return vscode.l10n.t("concert");
    case "ill":
      return vscode.l10n.t("ill");
  }
}

/** The name of the sign, of those that the editor brings along. */
export function standingSign(standing: Standing): string {
  switch (standing) {
    case "over":
      return "error";
    case "near":
      return "warning";
    case "within":
      return "pass";
    case "closed":
    case "ill":
      return "circle-slash";
    case "light":
      return "circle-outline";
    case "concert":
      return "star-full";
  }
}

/** The sign in the theme's colour for it. */
export function standingIcon(standing: Standing): vscode.ThemeIcon {
  switch (standing) {
    case "over":
      return new vscode.ThemeIcon(standingSign(standing), new vscode.ThemeColor("list.errorForeground"));
    case "near":
      return new vscode.ThemeIcon(standingSign(standing), new vscode.ThemeColor("list.warningForeground"));
    case "within":
      return new vscode.ThemeIcon(standingSign(standing), new vscode.ThemeColor("charts.green"));
    case "closed":
    case "ill":
    case "light":
    case "concert":
      return new vscode.ThemeIcon(standingSign(standing));
  }
}

/** What a figure counts, as it begins a row. */
export function figureName(name: FigureView["name"]): string {
  switch (name) {
    case "clock":
      return vscode.l10n.t("Clock");
    case "playing":
      return vscode.l10n.t("Playing");
    case "upper":
      return vscode.l10n.t("Upper register");
    case "stretch":
      return vscode.l10n.t("Longest stretch");
  }
}

/** `upper 7:07 of 5:00 (R. A.)`, as briefly as a narrow view asks for. */
export function figureText({ name, text, players }: FigureView): string {
  return `${shortName(name)} ${text}${whose(players)}`;
}

/** The same as it is read aloud: `upper register 7:07 of 5:00 (R. A.)`. */
export function spokenFigure({ name, text, players }: FigureView): string {
  return `${figureName(name)} ${text}${whose(players)}`;
}

function shortName(name: FigureView["name"]): string {
  switch (name) {
    case "clock":
      return vscode.l10n.t("clock");
    case "playing":
      return vscode.l10n.t("playing");
    case "upper":
      return vscode.l10n.t("upper");
    case "stretch":
      return vscode.l10n.t("stretch");
  }
}

/** ` (R. A., K. M.)`; nothing where a figure is the same for all. */
export function whose(players: readonly string[]): string {
  return players.length === 0 ? "" : ` (${players.join(", ")})`;
}

/** The figure that uses most of what is allowed; without allowances, the first. */
export function tightestOf(figures: readonly FigureView[]): FigureView | undefined {
  return figures.toSorted((a, b) => (b.share ?? -1) - (a.share ?? -1))[0];
}
