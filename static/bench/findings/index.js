export { installOnlyAbout } from "./about.js";
export { installFindings } from "./findings.js";
export { installShowMe } from "./show-me.js";
export { installTags } from "./tags.js";
