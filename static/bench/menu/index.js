export { installMenu } from "./menu.js";
