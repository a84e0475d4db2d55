export { pull } from "./pull.js";
