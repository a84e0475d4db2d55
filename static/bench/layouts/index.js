export { installKeepFound } from "./keep-found.js";
export { Layouts } from "./layouts.js";
