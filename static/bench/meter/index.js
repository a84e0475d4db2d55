export { installMeter, installProbeKeys } from "./install.js";
