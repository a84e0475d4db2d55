export { installHistory } from "./history.js";
export { installUndo } from "./undo.js";
