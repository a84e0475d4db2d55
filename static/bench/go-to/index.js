export { GoTo } from "./go-to.js";
