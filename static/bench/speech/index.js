export { installSpeech, Speech } from "./speech.js";
