/** The wheel zooms at the pointer; with Shift it pans. */

/** @param {import("../../bench.js").Bench} bench */
export function installWheel(bench) {
  const { host, view } = bench.surface;
  host.addEventListener(
    "wheel",
    (event) => {
      event.preventDefault();
      const unit = event.deltaMode === WheelEvent.DOM_DELTA_LINE ? 16 : 1;
      if (event.shiftKey) return view.pan(-(event.deltaX || event.deltaY) * unit, event.deltaX ? -event.deltaY * unit : 0);
      return view.zoom(Math.exp(-event.deltaY * unit * 0.0015), bench.surface.screenPoint(event));
    },
    { passive: false },
  );
}
