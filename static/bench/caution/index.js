export { installCaution } from "./caution.js";
