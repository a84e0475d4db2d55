export { installWhy } from "./install.js";
export { whyButton } from "./button.js";
