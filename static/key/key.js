/** A key that came with the scanned address is given at once. It stands behind the #, which no server ever sees. */

const form = /** @type {HTMLFormElement} */ (document.getElementById("key-form"));
const field = /** @type {HTMLInputElement} */ (document.getElementById("key-field"));
const key = decodeURIComponent(location.hash.slice(1));
if (key && !document.getElementById("key-said")?.textContent) {
  field.value = key;
  history.replaceState(null, "", location.pathname + location.search);
  form.submit();
} else field.focus();
