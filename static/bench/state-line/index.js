export { StateLine } from "./state-line.js";
