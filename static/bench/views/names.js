/**
 * What each view is called; the first is the one in which wires are changed.
 * @type {Record<string, string>}
 */

export const TITLES = {
  connection: "Connection diagram",
  ladder: "Ladder diagram",
  timing: "Timing chart",
  wires: "Wire list",
  terminals: "Terminal list",
  changes: "Changes",
  words: "Wiring in words",
};

/** The view in which wires are changed; in the others one looks and picks. */
export const EDITED = "connection";

/** The view of two layouts. */
export const CHANGES = "changes";
