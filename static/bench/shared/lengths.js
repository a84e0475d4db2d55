/** Lengths stand in the document in metres; they are typed and shown in the unit of the job. */

const METRES_PER_FOOT = 0.3048;

/** @param {number} shown @param {"ft"|"m"} unit */
export const toMetres = (shown, unit) => (unit === "ft" ? Number((shown * METRES_PER_FOOT).toFixed(6)) : shown);

/** @param {number} metres @param {"ft"|"m"} unit */
export const fromMetres = (metres, unit) => Number((unit === "ft" ? metres / METRES_PER_FOOT : metres).toFixed(1));
