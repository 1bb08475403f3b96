/** The companion does nothing by itself: an editor wants an extension to develop before it runs a suite. */
export function activate(): void {}
