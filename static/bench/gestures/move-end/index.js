export { moveEnd } from "./move-end.js";
