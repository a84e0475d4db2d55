export { Layouts } from "./layouts.js";
