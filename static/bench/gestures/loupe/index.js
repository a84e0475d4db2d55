export { Loupe } from "./loupe.js";
