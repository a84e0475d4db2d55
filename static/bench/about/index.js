export { installAbout } from "./about.js";
