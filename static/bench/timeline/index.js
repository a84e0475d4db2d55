export { installTimeline } from "./install.js";
