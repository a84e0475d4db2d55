export { installPicked } from "./picked.js";
