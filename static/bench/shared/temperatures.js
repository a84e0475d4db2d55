/** Temperatures stand in the document and in questions in °C; they are typed and shown in °F where the job measures in feet. */

export const CELSIUS = "°C";

/** @param {"ft"|"m"} length the unit of the job */
export const unitOfTemperature = (length) => (length === "ft" ? "°F" : CELSIUS);

/** @param {number} shown @param {"ft"|"m"} length */
export const toCelsius = (shown, length) => (length === "ft" ? Number(((shown - 32) / 1.8).toFixed(4)) : shown);

/** @param {number} celsius @param {"ft"|"m"} length */
export const fromCelsius = (celsius, length) => Number((length === "ft" ? celsius * 1.8 + 32 : celsius).toFixed(1));

/**
 * The same temperature in the unit that is not typed, to stand beside the field.
 * @param {number} celsius @param {"ft"|"m"} length
 */
export const besideTyped = (celsius, length) => {
  const other = length === "ft" ? "m" : "ft";
  return `(${fromCelsius(celsius, other)} ${unitOfTemperature(other)})`;
};
