// The handles of the measures on the stage: what the reader does to them. Where they
// stand and what they say comes from the page's program.
"use strict";
const openHandles = ({ tell }) => {
  const all = document.getElementById("handles"), stage = document.getElementById("stage");
  const grips = [...all.querySelectorAll("[data-handle]")];
  const box = document.getElementById("type");
  const of = (e) => e.target.closest("[data-handle]");
  const at = (e) => {
    const r = stage.getBoundingClientRect();
    return `${e.clientX - r.left} ${e.clientY - r.top}`;
  };

  // Of the handles under a finger the nearest is meant.
  const nearest = (e) => {
    let best = of(e), least = Infinity;
    for (const g of grips) {
      if (g.hidden || "near" in g.dataset) continue;
      const r = g.getBoundingClientRect(), far = Math.hypot(e.clientX - r.left - r.width / 2, e.clientY - r.top - r.height / 2);
      if (far < least && far <= r.width) [best, least] = [g, far];
    }
    return best;
  };

  let held = null, finger = 0;
  const letGo = (how) => {
    if (!held) return;
    const g = held;
    held = null;
    delete g.dataset.held;
    tell("handle", g.dataset.handle, how);
  };
  all.addEventListener("pointerdown", (e) => {
    if (e.button || held) return;
    const number = e.target.closest("[data-number]");
    if (number) {
      e.preventDefault(); // else it takes the focus from the box that opens
      tell("handle", number.dataset.number, "type");
      return;
    }
    const g = of(e) && nearest(e);
    if (!g) return;
    e.preventDefault();
    g.focus({ preventScroll: true });
    g.setPointerCapture(e.pointerId);
    [held, finger] = [g, e.pointerId];
    g.dataset.held = "";
    tell("handle", g.dataset.handle, "down " + at(e));
  });
  all.addEventListener("pointermove", (e) => { if (held && e.pointerId === finger) tell("handle", held.dataset.handle, "move " + at(e)); });
  for (const type of ["pointerup", "pointercancel", "lostpointercapture"]) {
    all.addEventListener(type, (e) => { if (e.pointerId === finger) letGo("up"); });
  }

  const keys = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "PageUp", "PageDown", "Home", "End"];
  let stepped = false;
  all.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    if (e.target === box) {
      if (e.key !== "Enter" && e.key !== "Escape") return;
      e.preventDefault();
      tell("handle", "", e.key === "Enter" ? "set " + box.value : "shut");
      return;
    }
    const g = of(e);
    if (!g) return;
    if (e.key === "Escape" && held) letGo("back");
    else if (held) { /* one thing at a time */ }
    else if (e.key === "Enter") tell("handle", g.dataset.handle, "type");
    else if (keys.includes(e.key)) {
      stepped = true;
      tell("handle", g.dataset.handle, "key " + e.key);
    } else return;
    e.preventDefault();
  });
  all.addEventListener("focusin", (e) => { if (e.target === box) box.select(); });
  all.addEventListener("focusout", (e) => {
    if (e.target === box && !document.getElementById("typing").hidden) setTimeout(() => tell("handle", "", "left " + box.value));
    else if (stepped && of(e)) {
      stepped = false;
      tell("handle", of(e).dataset.handle, "leave");
    }
  });
};
