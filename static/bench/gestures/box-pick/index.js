export { boxPick, installBoxPick } from "./box-pick.js";
