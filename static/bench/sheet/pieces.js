/**
 * The server's SVG in pieces. It writes each thing that lies on the sheet or in a layer in a line of its own, and so
 * the tags of the layers; a line that is as it was before need not be read again.
 */

const HOOKS = ["layer", "part", "conductor", "end", "terminal", "volts"];
/** A tag that opens what the lines below it are in, and one in which nothing is. */
const OPEN = /^<\w+[^>]*[^/>]>$/;
const EMPTY = /^<(g|svg)\b[^>]*\/>$/;

/** @typedef {{key: string, line: string, sent: Element|null, pieces: Piece[]|null}} Piece
 *   a line of the drawing; `sent` is what was read in it, none where it is as before; a layer has pieces of its own */

/**
 * @param {string} text of the server's SVG @param {(key: string) => string|undefined} lineBefore what stood there
 * @returns {{svg: SVGSVGElement, pieces: Piece[]}|null} none where it cannot be read
 */
export function readPieces(text, lineBefore) {
  const [head, ...lines] = text.trimEnd().split("\n");
  const svg = read(`${head}</svg>`);
  if (!svg || lines.pop() !== "</svg>") return null;
  /** @type {Piece[]} */
  const pieces = [...svg.children].map((sent, number) => ({ key: `/${sent.tagName}:${number}`, line: "", sent, pieces: null }));
  /** @type {Piece[]} */
  const fresh = [];
  const seen = new Map();
  let [layer, within] = [/** @type {Piece|null} */ (null), pieces];
  for (const line of lines) {
    if (layer && line.startsWith("</")) {
      [layer, within] = [null, pieces];
      continue;
    }
    const key = onlyOne(seen, `${layer?.key ?? ""}/${keyOf(line, within.length)}`);
    const holds = !layer && (OPEN.test(line) || EMPTY.test(line));
    const piece = { key, line, sent: null, pieces: holds ? [] : null };
    within.push(piece);
    if (lineBefore(key) !== line) fresh.push(piece);
    if (piece.pieces && OPEN.test(line)) [layer, within] = [piece, piece.pieces];
  }
  return layer || !readAll(fresh) ? null : { svg, pieces };
}

/**
 * Read all lines that are new at once.
 * @param {Piece[]} fresh @returns {boolean} whether they could be read
 */
function readAll(fresh) {
  if (fresh.length === 0) return true;
  const lines = fresh.map(({ line, pieces }) => (pieces && OPEN.test(line) ? `${line.slice(0, -1)}/>` : line));
  const sheet = read(`<svg xmlns="http://www.w3.org/2000/svg">${lines.join("")}</svg>`);
  if (sheet?.children.length !== fresh.length) return false;
  const found = [...sheet.children];
  // Each is kept by itself: together they would outlive the last of them.
  sheet.replaceChildren();
  fresh.forEach((piece, number) => (piece.sent = found[number]));
  return true;
}

/** @param {string} text */
function read(text) {
  const parsed = new DOMParser().parseFromString(text, "image/svg+xml");
  return parsed.querySelector("parsererror") ? null : /** @type {SVGSVGElement} */ (/** @type {unknown} */ (parsed.documentElement));
}

/**
 * One thing may stand at several places, such as a conductor on two rungs.
 * @param {Map<string, number>} seen @param {string} key
 */
function onlyOne(seen, key) {
  const number = seen.get(key) ?? 0;
  seen.set(key, number + 1);
  return number === 0 ? key : `${key}#${number}`;
}

/**
 * What a line is of, else its place.
 * @param {string} line @param {number} number
 */
function keyOf(line, number) {
  const tag = line.slice(0, line.indexOf(">"));
  for (const name of HOOKS) {
    const found = new RegExp(` data-${name}="([^"]*)"`).exec(tag);
    if (found) return `${name}:${found[1].replaceAll("/", "~")}`;
  }
  return `${/\w+/.exec(tag)?.[0]}:${number}`;
}
