// The stage: what the reader does on it, and who draws on it. At first that is a plain
// canvas (plain.js), on which every browser can draw. The stage's own program takes
// its place once it is there and has drawn, and gives it back when it fails or where
// the screen is too large for it; the page goes on in any case.
//
// tell sends an event to the page's program. compiled gives a promise of the stage's
// program.
"use strict";
const openStage = ({ tell, compiled }) => {
  const root = document.documentElement;
  const stage = document.getElementById("stage");
  // What is pressed, dragged and focused is one thing, whoever draws in it.
  const ground = document.createElement("div");
  ground.id = "canvas";
  ground.tabIndex = 0;
  ground.hidden = true;
  for (const name of ["role", "aria-label", "aria-describedby"]) {
    ground.setAttribute(name, stage.dataset[name.replace("aria-", "")]);
  }
  const plain = document.createElement("canvas");
  ground.appendChild(plain);
  stage.insertBefore(ground, document.getElementById("handles")); // which lie over it, and come after it
  const paint = plainPainter(plain);

  // ---- the reader acts ----------------------------------------------------
  // Ebiten keeps every key, wheel and touch for itself. A listener that runs before
  // its own takes what is ours and lets through what is the browser's.

  const within = (e) => e.target && e.target.closest && e.target.closest("#canvas");
  const at = (e) => {
    const r = stage.getBoundingClientRect();
    return [e.pointerId, e.clientX - r.left, e.clientY - r.top].join(" ") + (e.shiftKey ? " shift" : "");
  };
  const pointer = (type) => (e) => {
    if (!within(e)) return;
    if (type === "down") {
      if (e.button) return;
      ground.setPointerCapture(e.pointerId);
      ground.focus({ preventScroll: true });
    }
    tell("pointer", type, at(e));
  };
  stage.addEventListener("pointerdown", pointer("down"), true);
  stage.addEventListener("pointermove", pointer("move"), true);
  stage.addEventListener("pointerup", pointer("up"), true);
  stage.addEventListener("pointercancel", pointer("up"), true);
  // Everything that Ebiten listens to ends here.
  for (const type of ["mousedown", "mouseup", "mousemove", "keyup", "contextmenu", "dragover", "drop", "blur"]) {
    stage.addEventListener(type, (e) => { if (within(e)) e.stopImmediatePropagation(); }, true);
  }
  for (const type of ["touchstart", "touchmove", "touchend"]) {
    stage.addEventListener(type, (e) => { if (within(e)) e.stopImmediatePropagation(); }, { capture: true, passive: true });
  }
  // The wheel scrolls the page. It enlarges the ruff with Ctrl, or after a press on
  // the drawing, until the pointer leaves it or presses elsewhere.
  let pressed = false;
  addEventListener("pointerdown", (e) => { pressed = !!within(e); }, true);
  stage.addEventListener("pointerleave", () => { pressed = false; });
  stage.addEventListener("wheel", (e) => {
    if (!within(e)) return;
    e.stopImmediatePropagation();
    if (e.metaKey || !(pressed || e.ctrlKey)) return;
    e.preventDefault();
    const line = e.deltaMode === 1 ? 16 : e.deltaMode === 2 ? 400 : 1;
    tell("wheel", "", [e.deltaY * line, ...at(e).split(" ").slice(1, 3)].join(" "));
  }, { capture: true, passive: false });
  stage.addEventListener("keydown", (e) => {
    if (!within(e)) return;
    e.stopImmediatePropagation();
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    if (!["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "+", "=", "-", "Home", "Escape"].includes(e.key)) return;
    e.preventDefault();
    tell("key", e.key, e.shiftKey ? "shift" : "");
  }, true);

  // ---- frames ---------------------------------------------------------------

  let asked = false; // a frame will be asked for when the screen takes one
  const draw = () => {
    if (asked) return;
    asked = true;
    requestAnimationFrame(() => { asked = false; tell("draw", "", ""); });
  };

  const port = { postMessage: ({ head }) => hear(head) }; // onmessage is the program's
  const post = (head, body) => port.onmessage({ data: { head, body } });

  let pixels = null; // of the pictures of the frame that comes
  let last = null;   // the frame that is shown
  const plainly = () => {
    size().forEach((side, i) => {
      const name = ["width", "height"][i];
      if (plain[name] !== side) plain[name] = side;
      plain.style[name] = `${side / devicePixelRatio}px`;
    });
    paint(last, pixels);
  };
  let picture;
  const pictured = new Promise((done) => { picture = () => setTimeout(done); });
  const show = (frame) => {
    last = frame;
    if (!canvas) {
      plainly();
      if (root.dataset.stage !== "picture") seen("picture");
      return;
    }
    post("pixels", pixels);
    post("frame", frame);
    wake();
  };

  // seen tells who draws from now on: what stood there before gives way.
  const seen = (who) => {
    root.dataset.stage = who;
    ground.hidden = false;
    document.getElementById("picture").hidden = true;
    plain.hidden = who === "drawn";
    if (canvas) canvas.hidden = who !== "drawn";
    const mark = who === "drawn" ? "ruffwright-stage" : "ruffwright-picture"; // of the first time
    if (!performance.getEntriesByName(mark).length) performance.mark(mark);
    picture();
  };

  // ---- the stage's program --------------------------------------------------
  // Ebiten hangs its canvas on body and sizes it by body's client size. Here the
  // canvas moves into the stage, and body answers with the stage's size.

  const size = () => [stage.clientWidth, stage.clientHeight].map((side) => Math.max(1, Math.floor(Math.max(1, Math.floor(side)) * devicePixelRatio)));
  for (const side of ["clientWidth", "clientHeight"]) {
    // Whole pixels, so that the drawing is never stretched by a fraction.
    Object.defineProperty(document.body, side, { configurable: true, get: () => Math.max(1, Math.floor(stage[side])) });
  }

  let canvas = null; // Ebiten's, while it is wanted
  let most = 0;      // device pixels of a side that it can draw
  let given = "";    // why it is not wanted any more
  const fits = () => Math.max(...size()) <= most;

  // Ebiten's textures have sides of a power of two, and room for a pixel around.
  const ask = () => {
    const gl = document.createElement("canvas").getContext("webgl2");
    if (!gl) return;
    most = 2 ** Math.floor(Math.log2(gl.getParameter(gl.MAX_TEXTURE_SIZE))) - 2;
    const lose = gl.getExtension("WEBGL_lose_context");
    if (lose) lose.loseContext();
  };

  // Ebiten asks for a frame after each frame, and for the gamepads in it. It gets a few
  // whenever there is something to draw; then the one that it asks for waits.
  const few = 8;
  let left = few;  // frames that it still gets
  let held = null; // what it does with the one that waits
  const nextFrame = globalThis.requestAnimationFrame.bind(globalThis);
  const sparing = (step) => {
    if (left-- > 0) return nextFrame(step);
    held = step;
    return 0;
  };
  const wake = () => {
    left = few;
    if (held) nextFrame(held);
    held = null;
  };
  document.addEventListener("visibilitychange", wake);

  const giveUp = (why) => {
    if (given) return;
    given = why;
    if (canvas) canvas.remove();
    canvas = null;
    if (port.onmessage) setTimeout(post, 0, "end"); // it may be the one that speaks
    if (last) show(last);
  };

  const hear = (head) => {
    if (given) return;
    if (head === "drew") seen("drawn");
    else giveUp(head);
  };

  const run = async () => {
    const module = compiled();
    module.catch(() => {}); // said below
    await pictured; // what costs the page's thread comes after the first picture
    ask();
    if (!fits()) return giveUp(most ? "the screen is too large" : "there is no WebGL 2");
    const go = new Go();
    globalThis.ruffwrightStage = port;
    const instance = await WebAssembly.instantiate(await module, go.importObject);
    if (given) return;
    globalThis.requestAnimationFrame = sparing; // which it takes as it starts, and keeps
    Object.defineProperty(navigator, "getGamepads", { configurable: true, value: () => [] });
    const ended = go.run(instance);
    globalThis.requestAnimationFrame = nextFrame;
    // What a program that has ended left behind may still be called; its clocks would
    // wait for it for ever.
    const over = () => {
      go._resume = () => {};
      for (const clock of go._scheduledTimeouts.values()) clearTimeout(clock);
      go._scheduledTimeouts.clear();
    };
    ended.then(over, over);
    canvas = document.querySelector("body > canvas");
    if (canvas) {
      canvas.removeAttribute("tabindex");
      canvas.style.outline = "";
      canvas.hidden = true;
      ground.appendChild(canvas);
    }
    for (const extra of document.querySelectorAll("head > meta[name=viewport] ~ meta[name=viewport]")) extra.remove();
    if (last) show(last);
    await ended;
    throw new Error("its program ended");
  };

  stage.addEventListener("webglcontextlost", (e) => {
    e.stopImmediatePropagation(); // else Ebiten reloads the page
    giveUp("the drawing's context is lost");
  }, true);

  const sized = () => ["sized", "", `${stage.clientWidth} ${stage.clientHeight} ${devicePixelRatio}`];
  new ResizeObserver(() => {
    if (canvas && !fits()) giveUp("the screen is too large");
    dispatchEvent(new Event("resize")); // Ebiten's cue
    wake();
    tell(...sized());
  }).observe(stage);

  return {
    sized, draw, show,
    pixels: (body) => { pixels = body; },
    start: () => { run().catch((why) => giveUp(String(why && why.message ? why.message : why))); },
    seen: () => !ground.hidden,
    prints: () => { if (last) plainly(); },
  };
};
