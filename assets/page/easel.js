// The easel: pictures that the reader opens go from the disk to a worker of their own and
// from there to a canvas; they never pass the page's program, which knows their sizes and
// says what is shown of them. What the reader does on the pad is told to it.
"use strict";
const openEasel = ({ tell, hire }) => {
  const byId = (id) => document.getElementById(id);
  const pad = byId("easel-pad"), canvas = byId("easel-canvas"), lens = byId("easel-lens");
  const most = 64 * 2 ** 20 + 1; // bytes of a file that are read: one more than the opener takes
  const pictures = {}; // by side: a canvas of the picture as it is shown
  const seen = { view: "", lens: "" };
  let file = null, worker = null;

  const choose = (f) => {
    if (!f) return;
    file = f;
    tell("easel", "chosen", `${f.size} ${f.name}`);
  };
  byId("easel-file").addEventListener("change", (e) => { choose(e.target.files[0]); e.target.value = ""; });
  addEventListener("paste", (e) => {
    const f = e.clipboardData && [...e.clipboardData.files].find((f) => f.type.startsWith("image/"));
    if (!f) return;
    e.preventDefault();
    choose(f);
  });

  // ---- the opener -----------------------------------------------------------

  const end = () => { if (worker) worker.terminate(); worker = file = null; };
  const open = (side) => {
    if (worker) worker.terminate();
    const died = (why) => setTimeout(() => tell("easel", "died", why));
    try {
      const w = worker = hire("opener");
      w.onmessage = async ({ data }) => {
        if (w !== worker || !data) return;
        if (data.dead !== undefined) return tell("easel", "died", data.dead);
        const said = JSON.parse(data.head);
        if (said.alive) {
          const body = await file.slice(0, most).arrayBuffer().catch(() => null);
          if (w !== worker) return;
          if (!body) return tell("easel", "died", "");
          return w.postMessage({ head: "open", body }, [body]);
        }
        if (data.body) {
          forget(side);
          const p = pictures[side] = document.createElement("canvas");
          [p.width, p.height] = [said.width, said.height];
          p.getContext("2d").putImageData(new ImageData(new Uint8ClampedArray(data.body), said.width, said.height), 0, 0);
        }
        tell("easel", "said", data.head);
        draw();
      };
      w.onerror = (e) => { e.preventDefault(); if (w === worker) died(e.message || ""); };
    } catch (e) { died(e.message); }
  };
  const forget = (side) => {
    if (pictures[side]) pictures[side].width = pictures[side].height = 0;
    delete pictures[side];
  };

  // ---- the ruff over the picture ----------------------------------------------
  // A painter of its own, while it is wanted: the page's program in that role.

  const over = byId("easel-over"), onOver = plainPainter(over);
  let painter = null;
  const paint = {
    start: () => {
      paint.end();
      const died = (why) => setTimeout(() => tell("easel", "paint-died", why));
      try {
        const w = painter = hire("painter");
        w.onmessage = ({ data }) => {
          if (w !== painter || !data) return;
          if (data.dead !== undefined) tell("easel", "paint-died", data.dead);
          else tell("easel", "painted", data.head, data.body);
        };
        w.onerror = (e) => { e.preventDefault(); if (w === painter) died(e.message || ""); };
      } catch (e) { died(e.message); }
    },
    ask: (p) => { if (painter) painter.postMessage({ head: p.value, body: p.body }, p.body ? [p.body] : []); },
    show: (p, body) => {
      const ratio = devicePixelRatio || 1;
      [over.width, over.height] = [Math.round(pad.clientWidth * ratio), Math.round(pad.clientHeight * ratio)];
      onOver(p.body, new Uint8Array(body, p.from || 0, p.size).slice().buffer);
    },
    end: () => {
      if (painter) painter.terminate();
      painter = null;
      over.width = over.height = 0;
    },
  };

  // ---- what is shown ----------------------------------------------------------

  const onto = (to, picture, x, y, k, times) => {
    const ratio = devicePixelRatio || 1, pen = to.getContext("2d");
    const width = Math.round(to.clientWidth * ratio), height = Math.round(to.clientHeight * ratio);
    if (to.width !== width || to.height !== height) [to.width, to.height] = [width, height];
    pen.setTransform(1, 0, 0, 1, 0, 0);
    pen.clearRect(0, 0, width, height);
    pen.setTransform(k * ratio * times, 0, 0, k * ratio * times, -x * k * ratio, -y * k * ratio);
    pen.imageSmoothingEnabled = k * times * ratio < 4;
    pen.drawImage(picture, 0, 0);
    pen.setTransform(1, 0, 0, 1, 0, 0);
    return pen;
  };
  const draw = () => {
    const [side, x, y, k, times] = seen.view.split(" ");
    const picture = pictures[side];
    if (!picture) { canvas.width = canvas.height = 0; lens.hidden = true; return; }
    onto(canvas, picture, +x, +y, +k, +times);
    lens.hidden = !seen.lens;
    if (!seen.lens) return;
    const [at, down, near, left, top] = seen.lens.split(" ").map(Number);
    [lens.style.left, lens.style.top] = [`${left}px`, `${top}px`];
    const half = lens.clientWidth / 2;
    const pen = onto(lens, picture, at - half / near, down - half / near, near, +times);
    const middle = lens.width / 2, arm = lens.width / 5;
    for (const [ink, wide] of [["#fff", 5], ["#17233f", 2]]) {
      pen.strokeStyle = ink;
      pen.lineWidth = wide;
      pen.beginPath();
      for (const [u, v] of [[1, 0], [-1, 0], [0, 1], [0, -1]]) {
        pen.moveTo(middle + u * arm / 4, middle + v * arm / 4);
        pen.lineTo(middle + u * arm, middle + v * arm);
      }
      pen.stroke();
    }
  };

  // ---- what the reader does -----------------------------------------------------

  const at = (e) => {
    const r = pad.getBoundingClientRect();
    return `${e.clientX - r.left} ${e.clientY - r.top}`;
  };
  const point = (phase) => (e) => {
    if (phase === "down") {
      if (e.button) return;
      canvas.focus({ preventScroll: true });
      canvas.setPointerCapture(e.pointerId);
    }
    tell("easel", phase, `${e.pointerId} ${at(e)}${e.pointerType === "touch" ? " touch" : ""}`);
  };
  canvas.addEventListener("pointerdown", point("down"));
  canvas.addEventListener("pointermove", (e) => { if (canvas.hasPointerCapture(e.pointerId)) point("move")(e); });
  for (const type of ["pointerup", "pointercancel"]) canvas.addEventListener(type, point("up"));
  canvas.addEventListener("wheel", (e) => {
    e.preventDefault();
    const rows = e.deltaMode ? 30 : e.ctrlKey ? 8 : 1; // two fingers that part on a touchpad come as small steps with Ctrl
    tell("easel", "wheel", `${e.deltaY * rows} ${at(e)}`);
  }, { passive: false });
  const keys = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "PageUp", "PageDown", "Home", "Enter", " ", "Delete", "Backspace", "Escape", "+", "=", "-", "0"];
  canvas.addEventListener("keydown", (e) => {
    if (e.ctrlKey || e.metaKey || e.altKey || !keys.includes(e.key)) return;
    e.preventDefault();
    tell("easel", "key", e.key === " " ? "Enter" : e.key + (e.shiftKey && e.key.startsWith("Arrow") ? " shift" : ""));
  });
  new ResizeObserver(() => {
    if (!pad.clientWidth) return;
    tell("easel", "size", `${pad.clientWidth} ${pad.clientHeight} ${devicePixelRatio || 1}`);
    draw();
  }).observe(pad);

  const doing = { pick: () => byId("easel-file").click(), open: (p) => open(p.value), end, forget: (p) => { forget(p.value); draw(); }, fade: (p) => { over.style.opacity = p.value; } };
  return {
    choose,
    does: (p, body) => {
      const [what, then] = p.name.split(" ");
      if (what === "paint") paint[then](p, body);
      else if (what in seen) { seen[what] = p.value; draw(); } else doing[what](p);
    },
    stop: () => { end(); paint.end(); },
  };
};
