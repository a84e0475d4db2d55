export { Regions } from "./regions.js";
