/** A page that nobody sees is not painted. */
const LONGEST_WAIT_MS = 200;

/**
 * Act once what has been changed so far is on the screen: a button that was pressed looks pressed before the page is
 * busy with what it does.
 * @param {() => void} act
 */
export function afterPaint(act) {
  let isDone = false;
  const once = () => {
    if (!isDone) act();
    isDone = true;
  };
  requestAnimationFrame(() => setTimeout(once));
  setTimeout(once, document.hidden ? 0 : LONGEST_WAIT_MS);
}
