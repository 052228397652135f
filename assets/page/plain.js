// Paints frames (wasm/frame) on a plain canvas, where the stage's program cannot or
// does not yet: without WebGL 2, on a screen too large for it, and while it loads.
"use strict";
const plainPainter = (canvas) => {
  const pen = canvas.getContext("2d");
  const stamps = new Map(), mostStamps = 300;

  // picture makes something that can be drawn of pixels, each of them given by four.
  const picture = (width, height, four) => {
    const on = document.createElement("canvas");
    on.width = width;
    on.height = height;
    const to = on.getContext("2d"), data = to.createImageData(width, height);
    four(data.data);
    to.putImageData(data, 0, 0);
    return on;
  };

  // A canvas takes straight colours, and pictures come premultiplied.
  const straight = (from) => (to) => {
    to.set(from);
    for (let i = 3; i < to.length; i += 4) {
      const a = to[i];
      if (a === 0 || a === 255) continue;
      for (let k = i - 3; k < i; k++) to[k] = from[k] * 255 / a;
    }
  };

  return (frame, pixels) => {
    const view = new DataView(frame), middle = [canvas.width / 2, canvas.height / 2];
    let at = 0, from = 0;
    const word = () => view.getUint32((at += 4) - 4, true);
    const number = () => view.getFloat32((at += 4) - 4, true);
    const place = () => [middle[0] + number(), middle[1] + number()];
    const colour = () => {
      const c = word();
      return { r: c & 255, g: c >> 8 & 255, b: c >> 16 & 255, a: c >>> 24 };
    };
    const css = ({ r, g, b, a }) => `rgb(${r} ${g} ${b} / ${a / 255})`;
    const draw = (on, [x, y]) => pen.drawImage(on, Math.round(x), Math.round(y));

    const path = () => {
      const closed = word() === 1, fill = colour(), stroke = colour(), width = number();
      pen.setLineDash(Array.from({ length: word() }, number));
      pen.beginPath();
      for (let lines = word(); lines > 0; lines--) {
        for (let n = word(), i = 0; i < n; i++) i ? pen.lineTo(...place()) : pen.moveTo(...place());
        if (closed) pen.closePath();
      }
      if (closed && fill.a) { pen.fillStyle = css(fill); pen.fill(); }
      if (stroke.a && width > 0) {
        // Never thinner than a pixel: paler instead.
        pen.strokeStyle = css({ ...stroke, a: stroke.a * (width < 1 ? Math.max(width, 0.25) : 1) });
        pen.lineWidth = Math.max(1, width);
        pen.stroke();
      }
    };
    const stamp = () => {
      const id = word(), corner = place(), width = word(), height = word(), ink = colour(), n = width * height;
      const key = `${id} ${css(ink)}`;
      if (!stamps.has(key)) {
        if (stamps.size >= mostStamps) stamps.clear();
        const cover = new Uint8Array(frame, at, n);
        stamps.set(key, picture(width, height, (to) => {
          for (let i = 0; i < n; i++) to.set([ink.r, ink.g, ink.b, cover[i] * ink.a / 255], 4 * i);
        }));
      }
      at += (n + 3) & ~3;
      draw(stamps.get(key), corner);
    };
    const painted = () => {
      const corner = place(), width = word(), height = word(), n = 4 * width * height;
      draw(picture(width, height, straight(new Uint8Array(pixels, from, n))), corner);
      from += n;
    };

    word(); // the mark
    pen.lineCap = pen.lineJoin = "round";
    pen.fillStyle = css(colour());
    pen.fillRect(0, 0, canvas.width, canvas.height);
    for (let items = word(); items > 0; items--) [path, stamp, painted][word() - 1]();
  };
};
