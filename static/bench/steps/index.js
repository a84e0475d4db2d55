export { installUndo } from "./undo.js";
