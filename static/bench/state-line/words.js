/** The sentences of the state line, exact to the word. */

/** @param {number} count */
export const edits = (count) => (count === 0 ? "No edit" : count === 1 ? "1 edit" : `${count} edits`);

/** @param {Date} time */
export const clock = (time) => `${String(time.getHours()).padStart(2, "0")}:${String(time.getMinutes()).padStart(2, "0")}`;

/** @param {string} words */
export const sentence = (words) => (/[.!?]$/.test(words) ? words : `${words}.`);

/** @param {string} words */
export const lower = (words) => (/^[A-Z][a-z]/.test(words) ? words[0].toLowerCase() + words.slice(1) : words);

export const SAVED = "Saved and checked.";
export const SENDING = "Sending...";
export const GONE = "There is no job with this address. It may have been deleted.";
export const FULL = "This device cannot keep more edits. Download the job now so that nothing is lost.";
export const KEPT = "Kept on this device. Not connected.";
export const OUT_OF_REACH = "The server cannot be reached. What is shown is from before.";

/** @param {Date} since @param {number} count */
export const awayWords = (since, count) => `Server away since ${clock(since)}. ${edits(count)} kept on this device, not checked yet.`;

/** @param {number} count */
export const lockedWords = (count) => `This server asks for its key. ${edits(count)} kept on this device, not checked yet.`;

/** @param {number} count */
export const sendingWords = (count) => `Back. Sending ${edits(count)}...`;

/** @param {number} count */
export const backWords = (count) => (count === 0 ? "Back. Saved and checked." : `Back. ${edits(count)} saved and checked.`);

/** @param {number} count */
export const elsewhereWords = (count) => `This job was also changed elsewhere (${edits(count)}). Yours were put on top.`;

/** @param {number} count */
export const newsWords = (count) => `Changed on another device (${edits(count)}), and shown here.`;

/** @param {{status: number, problem: any}} outcome */
export function failedWords({ status, problem }) {
  const ref = problem?.ref ? `, ref ${problem.ref}` : "";
  return `The server could not answer (error ${status}${ref}).`;
}

/** @param {any} problem @param {(part: string) => string} nameOf what a part is called */
export function refusedWords(problem, nameOf) {
  const detail = problem.detail ?? problem.title ?? "the server did not take it";
  const screw = /^There is no terminal ([^.]+)\.(.+)\. (It has .*)$/.exec(detail);
  if (screw) return `Not done: terminal ${screw[2]} does not exist on ${nameOf(screw[1])}. ${screw[3]}`;
  const right = problem.would_be_right ? ` Right would be: ${sentence(problem.would_be_right)}` : "";
  return `Not done: ${lower(sentence(detail))}${right}`;
}

/** @param {{step: string, because: string}[]} lost @param {number} total */
export function lostWords(lost, total) {
  const whose = total === 1 ? "Your edit" : `${lost.length} of your ${edits(total)}`;
  const verb = lost.length === 1 ? "fits" : "fit";
  const each = lost.map(({ step, because }) => `${step}, because ${because}`).join("; ");
  const left = total - lost.length;
  const others = left === 0 ? "" : left === 1 ? " The other is saved." : " The others are saved.";
  return `${whose} no longer ${verb}: ${sentence(each)}${others}`;
}
