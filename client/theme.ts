import * as vscode from "vscode";
import type { BaseLanguageClient } from "vscode-languageclient";
import { THEME_NOTIFICATION, type ThemeParams } from "../server/protocol/requests";

/** The kind of theme the editor shows now. */
export function themeKind(): ThemeParams["kind"] {
  switch (vscode.window.activeColorTheme.kind) {
    case vscode.ColorThemeKind.Light:
      return "light";
    case vscode.ColorThemeKind.Dark:
      return "dark";
    case vscode.ColorThemeKind.HighContrast:
      return "contrast";
    case vscode.ColorThemeKind.HighContrastLight:
      return "contrastLight";
  }
}

/** Tells the server whenever the theme becomes one of another kind, so that pictures can be seen on it. */
export function tellThemes(client: BaseLanguageClient): vscode.Disposable {
  return vscode.window.onDidChangeActiveColorTheme(() => {
    const params: ThemeParams = { kind: themeKind() };
    if (client.isRunning()) void client.sendNotification(THEME_NOTIFICATION, params);
  });
}
