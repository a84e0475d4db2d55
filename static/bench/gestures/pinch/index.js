export { Pinch } from "./pinch.js";
