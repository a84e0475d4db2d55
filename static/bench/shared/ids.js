/** New ids end in five random characters, so that two editors never make the same one. */

const LETTERS = "23456789abcdefghjkmnpqrstvwxyz";

/** @param {number} length @returns {string} */
export function randomLetters(length) {
  const bytes = crypto.getRandomValues(new Uint8Array(length));
  return Array.from(bytes, (byte) => LETTERS[byte % LETTERS.length]).join("");
}

/** @param {string} stem such as `w8` or `furnace-board` @returns {string} */
export function newId(stem) {
  return `${stem.slice(0, 26)}-${randomLetters(5)}`;
}
