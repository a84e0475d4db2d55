/** A key that came with the scanned address is given at once. It stands behind the #, which no server ever sees. */

const form = /** @type {HTMLFormElement} */ (document.getElementById("key-form"));
const field = /** @type {HTMLInputElement} */ (document.getElementById("key-field"));

function give() {
  const key = decodeURIComponent(location.hash.slice(1));
  if (!key) return field.focus();
  field.value = key;
  history.replaceState(null, "", location.pathname + location.search);
  return form.submit();
}

addEventListener("hashchange", give);
give();
