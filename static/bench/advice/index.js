export { Advice, installAdvice } from "./advice.js";
