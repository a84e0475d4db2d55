export { installInWords } from "./in-words.js";
