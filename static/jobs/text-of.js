/** The text of a file as spreadsheets write them: UTF-8, UTF-16 with its mark, else the code page of older ones. */

/** @param {Blob} file @returns {Promise<string>} */
export async function textOf(file) {
  const bytes = new Uint8Array(await file.arrayBuffer());
  const mark = bytes[0] * 256 + bytes[1];
  if (mark === 0xfffe) return new TextDecoder("utf-16le").decode(bytes);
  if (mark === 0xfeff) return new TextDecoder("utf-16be").decode(bytes);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}
