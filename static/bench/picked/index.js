export { openName, openPicked } from "./open.js";
export { installPicked } from "./picked.js";
