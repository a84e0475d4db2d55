export { Presses } from "./press.js";
