export { installMore } from "./more.js";
