// The thin side of the page: it starts the program, hands it what the reader
// does, and does to the document what the program answers. One call out and
// one answer back for each event; everything else is in Go.
"use strict";
(() => {
  const here = document.currentScript;
  const words = document.getElementById("failure-why").dataset; // from the page's table
  const byId = (id) => document.getElementById(id);
  const root = document.documentElement;
  let answer = null; // the program's callback, once it runs
  const waiting = []; // what the reader did before the program ran
  let stopped = false;

  // ---- the programs -------------------------------------------------------
  // Served, a program is a file beside the page. In the page that is one file
  // they all lie packed in the page itself, and a worker unpacks them.

  const whole = "packed" in here.dataset; // the page is one file
  const script = (...ids) => URL.createObjectURL(new Blob(ids.map((id) => byId(id).textContent + "\n"), { type: "text/javascript" }));
  let parcels = null; // name → promise of its bytes, once they are being unpacked

  const unpack = () => {
    const parts = here.dataset.packed.split(" ").map((part) => ({ name: part.split(":")[0], size: Number(part.split(":")[1]) }));
    const promises = {}, open = {};
    for (const { name } of parts) {
      promises[name] = new Promise((done, failed) => { open[name] = { done, failed }; });
      promises[name].catch(() => {}); // said where it is asked for
    }
    const failed = () => { for (const { name } of parts) open[name].failed(new Error(words.packed)); };
    const take = (name, bytes) => open[name].done(bytes);
    const text = byId("packed").textContent;
    try {
      const w = new Worker(script("unpack"));
      w.onmessage = ({ data }) => {
        if (data.failed) failed();
        else if (data.name) take(data.name, data.bytes);
        else w.terminate();
      };
      w.onerror = (e) => { e.preventDefault(); failed(); };
      w.postMessage({ text, parts });
    } catch { // no workers here: this thread does it
      setTimeout(() => { try { unpacked(text, parts, take); } catch { failed(); } });
    }
    return promises;
  };
  const parcel = (name) => (parcels = parcels || unpack())[name];

  // compiled gives a program's module, compiled once however often it is started.
  // One that did not come is fetched again the next time.
  const modules = {};
  const compiled = (name) => modules[name] ||= (async () => {
    if (whole) return WebAssembly.compile(await parcel(name));
    const response = await fetch(here.dataset[name]);
    if (!response.ok) throw new Error(words.missing.replace("{status}", response.status));
    return WebAssembly.compileStreaming ? WebAssembly.compileStreaming(response) : WebAssembly.compile(await response.arrayBuffer());
  })().catch((why) => { delete modules[name]; throw why; });

  // hire starts a worker: the solver and the painter are the page's own program in other
  // roles, the press is a program of its own, and the opener of pictures is that in another.
  const hire = (name) => {
    const w = new Worker(whole ? script("exec", "worker") : here.dataset.worker);
    const start = async () => {
      const module = await compiled(name === "press" || name === "opener" ? "press" : "program");
      w.postMessage({ exec: here.dataset.exec, module, role: name });
    };
    start().catch((why) => w.onmessage && w.onmessage({ data: { dead: why.message } }));
    return w;
  };

  // ---- the program speaks -------------------------------------------------

  const grow = (n) => {
    const e = ["svg", "path", "text"].includes(n.tag) ? document.createElementNS("http://www.w3.org/2000/svg", n.tag) : document.createElement(n.tag);
    for (const [k, v] of Object.entries(n.attr || {})) e.setAttribute(k, v);
    if (n.text) e.textContent = n.text;
    for (const child of n.nodes || []) e.appendChild(grow(child));
    return e;
  };

  const doing = {
    text: (e, p) => { if (e.textContent !== p.value) e.textContent = p.value; },
    attr: (e, p) => { p.gone ? e.removeAttribute(p.name) : e.setAttribute(p.name, p.value); },
    value: (e, p) => { if (e.value !== p.value) e.value = p.value; },
    focus: (e) => {
      // A summary is seen while its own details are closed.
      let d = e.matches("summary") ? e.parentElement.parentElement : e;
      while ((d = d.closest("details"))) { d.open = true; d = d.parentElement; }
      e.focus();
      if (e.readOnly) e.select();
    },
    nodes: (e, p) => {
      const held = e.contains(document.activeElement) ? document.activeElement : null;
      const id = held && held.id;
      const open = [...e.querySelectorAll("details[open]")].map((d) => d.id);
      e.replaceChildren(...(p.nodes || []).map(grow));
      for (const d of open) if (d && byId(d)) byId(d).open = true; // what was unfolded stays so
      // Whoever stood on a control that is gone stands on its successor, or
      // on the list itself: never thrown back to the top of the page.
      if (held && held !== e) (id && byId(id) ? byId(id) : e).focus({ preventScroll: true });
    },
    place: (e, p) => {
      const [x, y, width, height] = p.value.split(" ");
      e.style.left = `${x}px`;
      e.style.top = `${y}px`;
      if (width) [e.style.width, e.style.height] = [`${width}px`, `${height}px`];
    },
    show: (e) => e.scrollIntoView({ block: "nearest", behavior: "instant" }),
    timer: (_, p) => setTimeout(() => tell("timer", p.name, ""), p.ms),
    address: (_, p) => history.replaceState(null, "", p.value || location.pathname + location.search),
    copy: (_, p) => {
      const words = p.name === "text" ? p.value : location.href.split("#")[0] + p.value;
      const done = (ok) => tell("copied", ok ? "yes" : "no", p.name || "");
      const byHand = () => done(selected(words));
      if (navigator.clipboard) navigator.clipboard.writeText(words).then(() => done(true), byHand);
      else setTimeout(byHand);
    },
    keep: (_, p) => {
      let said;
      try {
        const is = localStorage.getItem(p.name) ?? "";
        if (is !== (p.was ?? "")) said = ["elsewhere", p.name, is];
        else {
          p.gone ? localStorage.removeItem(p.name) : localStorage.setItem(p.name, p.value);
          said = ["kept", p.name, localStorage.getItem(p.name) ?? ""];
        }
      } catch (e) { said = ["unkept", p.name, e.name]; }
      queueMicrotask(() => tell(...said)); // after the patches it came with
    },
    save: (_, p) => {
      const [kind, text] = p.value.split(";base64,");
      download(p.name, Uint8Array.from(atob(text), (c) => c.charCodeAt(0)), kind.slice(5));
    },
    rescue: (_, p) => { last = p; },
    pick: (_, p) => {
      most = Number(p.value);
      if (p.name === "dropped") read(dropped);
      else byId("file").click();
    },
    mark: (_, p) => {
      performance.mark(p.name);
      if (p.name === "ruffwright-solved") stock();
    },
    solver: (_, p) => { const [what, n] = p.name.split(" "); handOf("solver", n)[what](p.value, p.body); },
    press: (_, p) => handOf("press")[p.name](p.value),
    draw: () => onStage.draw(),
    easel: (_, p, body) => easel.does(p, body),
    painter: (_, p) => handOf("painter")[p.name](p.value, p.body),
    pixels: (_, p, body) => onStage.pixels(p.body || new Uint8Array(body, p.from || 0, p.size).slice().buffer),
    frame: (_, p) => onStage.show(p.body),
    // A part of the message that is being told becomes a file behind a link.
    file: (e, p, body) => {
      if (e.href) URL.revokeObjectURL(e.href);
      e.href = URL.createObjectURL(new Blob([new Uint8Array(body, p.from || 0, p.size)], { type: p.value }));
      e.download = p.name;
      e.hidden = false;
    },
  };

  // An answer is the text of the patches or, where some have bodies, a list of the text
  // and these.
  const apply = (answer, body) => {
    const [text, ...bodies] = [].concat(answer);
    for (const p of JSON.parse(text || "[]")) {
      if (p.body) p.body = bodies[p.body - 1];
      const e = p.id ? byId(p.id) : null;
      if (p.id && !e) continue;
      doing[p.op](e, p, body);
    }
  };

  const download = (name, bytes, type) => {
    const a = document.createElement("a");
    a.href = URL.createObjectURL(new Blob([bytes], { type }));
    a.download = name;
    a.click();
    setTimeout(() => URL.revokeObjectURL(a.href), 60000);
  };
  let last = null; // the ruff at hand, for when the program dies

  // ---- files and storage --------------------------------------------------

  let most = 2 ** 20 + 1; // bytes of a file that are read; the program says
  let dropped = null;
  const read = (file) => {
    if (!file) return;
    file.slice(0, most).arrayBuffer().then(
      (bytes) => tell("file", file.name, String(file.size), bytes),
      () => tell("file", file.name, "unreadable"));
  };
  byId("file").addEventListener("change", (e) => { read(e.target.files[0]); e.target.value = ""; });
  const carries = (e) => e.dataTransfer && [...e.dataTransfer.types].includes("Files");
  for (const type of ["dragover", "drop"]) {
    addEventListener(type, (e) => {
      if (!carries(e)) return;
      e.preventDefault(); // else the browser leaves the page for the file
      e.stopImmediatePropagation();
      if (type !== "drop" || !(dropped = e.dataTransfer.files[0])) return;
      if (dropped.type.startsWith("image/") || e.target.closest && e.target.closest("#to-easel")) easel.choose(dropped);
      else tell("do", "dropped", "");
    }, true);
  }

  // The last resort for copying, where the browser has no better one.
  const selected = (words) => {
    const had = document.activeElement, t = document.createElement("textarea");
    t.value = words;
    t.className = "hidden";
    document.body.appendChild(t);
    t.select();
    let ok = false;
    try { ok = document.execCommand("copy"); } catch { /* then by hand */ }
    t.remove();
    if (had) had.focus({ preventScroll: true });
    return ok;
  };

  const ours = "ruffwright.";
  const recall = () => {
    try {
      const s = localStorage, found = {};
      for (const key of Object.keys(s)) if (key.startsWith(ours)) found[key] = s.getItem(key);
      return ["", JSON.stringify(found)];
    } catch (e) { return [e.name, ""]; }
  };
  addEventListener("beforeunload", (e) => { if ("unsaved" in byId("kept").dataset) e.preventDefault(); });
  addEventListener("storage", (e) => {
    if (e.key === null || e.key.startsWith(ours)) tell("elsewhere", e.key || "", e.newValue ?? "");
  });

  // ---- the workers --------------------------------------------------------
  // The solvers, the painter and the press: each in a worker that is started and ended
  // as the page asks. Of the solvers all but the first are called by number.

  const hand = (name, n) => {
    const called = (what) => n ? `${what} ${n}` : what;
    let worker = null;
    const self = {
      start: () => {
        self.end();
        const died = (why) => setTimeout(() => { if (boxed) root.dataset.loader = "boxed"; tell(name, called("died"), why); });
        try {
          const w = worker = hire(name);
          w.onmessage = ({ data }) => {
            if (w !== worker || !data) return;
            if (data.dead !== undefined) tell(name, called("died"), data.dead);
            else tell(name, called("said"), data.head, data.body);
          };
          w.onerror = (e) => { e.preventDefault(); if (w === worker) died(e.message || words.solver); };
        } catch (e) { died(e.message); }
      },
      ask: (head, body) => { if (worker) worker.postMessage({ head, body }, body ? [body] : []); },
      end: () => { if (worker) worker.terminate(); worker = null; },
    };
    return self;
  };
  const hands = {};
  const handOf = (name, n) => hands[name + (n || "")] ||= hand(name, n);

  // ---- the reader acts ----------------------------------------------------

  const tell = (kind, name, value, body) => {
    if (stopped) return;
    if (!answer) { if (kind === "set" || kind === "typing" || kind === "do") waiting.push([kind, name, value]); return; }
    apply(answer(kind, name, value, performance.now(), body), body);
  };

  const field = (e) => e.target.closest && e.target.closest("[data-key]");
  document.addEventListener("input", (e) => { const f = field(e); if (f) tell("typing", f.dataset.key, f.value); });
  document.addEventListener("change", (e) => { const f = field(e); if (f) tell("set", f.dataset.key, f.value); });
  document.addEventListener("keydown", (e) => {
    const f = field(e);
    if (f && f.tagName === "INPUT" && e.key === "Enter") { e.preventDefault(); tell("set", f.dataset.key, f.value); }
  });
  document.addEventListener("click", (e) => {
    const b = e.target.closest("[data-do]");
    if (!b || b.getAttribute("aria-disabled") === "true") return;
    if (b.tagName === "A") e.preventDefault();
    const panel = b.closest("details.panel");
    if (b.dataset.do === "word") asking = b;
    tell("do", b.dataset.do, b.dataset.with || "");
    if (panel && b.tagName === "A") panel.open = false; // what was chosen is seen
    if (b.dataset.do === "class") fill(b.dataset.with === "on");
    if (b.dataset.do === "shade") {
      shine(b.dataset.with);
      try { localStorage.setItem(shadeKey, shade); } catch { /* then for this visit alone */ }
    }
  });
  // For a class the page fills the screen, where the browser lets it. Escape leaves.
  const fill = (on) => {
    if (on && navigator.userActivation && !navigator.userActivation.isActive) return;
    const asked = on ? root.requestFullscreen && root.requestFullscreen() : document.fullscreenElement && document.exitFullscreen();
    if (asked) asked.catch(() => {});
  };
  const leave = () => { if ("class" in document.body.dataset) tell("do", "class", "off"); };
  document.addEventListener("fullscreenchange", () => { if (!document.fullscreenElement) leave(); });
  addEventListener("keydown", (e) => { // before the stage's
    if (e.key !== "Escape" || !("class" in document.body.dataset)) return;
    e.stopImmediatePropagation();
    fill(false);
    leave();
  }, true);
  // A panel of the header lies over the page until something else is pressed.
  let asking = null; // the button that asked for a word: Escape leads back to it
  const panels = [...document.querySelectorAll("details.panel")];
  document.addEventListener("pointerdown", (e) => { for (const p of panels) if (!p.contains(e.target)) p.open = false; });
  for (const p of panels) {
    p.addEventListener("toggle", () => { if (p.open) for (const other of panels) if (other !== p) other.open = false; });
    p.addEventListener("focusout", (e) => { if (e.relatedTarget && !p.contains(e.relatedTarget)) p.open = false; });
    p.addEventListener("keydown", (e) => { if (e.key === "Escape" && p.open) { p.open = false; (p.id === "words" && asking && asking.isConnected ? asking : p.firstElementChild).focus(); } });
  }
  // The help of a field goes on Escape, until the field is left.
  document.addEventListener("keydown", (e) => { const f = e.key === "Escape" && e.target.closest(".field"); if (f) f.dataset.hush = ""; });
  document.addEventListener("focusout", (e) => { const f = e.target.closest && e.target.closest(".field"); if (f) delete f.dataset.hush; });
  addEventListener("keydown", (e) => { // before the stage's
    const redo = e.key.toLowerCase() === "y" && e.ctrlKey, undo = e.key.toLowerCase() === "z";
    if (!(e.ctrlKey || e.metaKey) || e.altKey || !(redo || undo)) return;
    if (e.target.closest && e.target.closest("input:not([type=range]), textarea")) return; // text has its own
    e.preventDefault();
    e.stopImmediatePropagation();
    const way = redo || e.shiftKey ? "redo" : "undo";
    e.target.closest && e.target.closest("#to-easel") ? tell("do", "easel", way) : tell("do", way, ""); // points have steps of their own
  }, true);
  document.addEventListener("submit", (e) => e.preventDefault());
  addEventListener("hashchange", () => tell("address", "", location.hash));
  // A browser may bring the page back with all that it knew, but its form as it was first.
  addEventListener("pageshow", (e) => {
    if (!e.persisted) return;
    const again = () => {
      tell("begin", "", "");
      tell("typing", "find", byId("find").value);
    };
    again();
    setTimeout(again); // WebKit resets the form after this event
  });
  // Paper has no stage: a picture of dots stands there, and the ruff's link.
  addEventListener("beforeprint", () => {
    onStage.prints();
    byId("printed").textContent = last && last.was ? location.href.split("#")[0] + last.was : "";
  });
  const candle = matchMedia("(prefers-color-scheme: dark)");
  const forced = matchMedia("(forced-colors: active)");
  // By day or by candle as the system says, until the reader chooses on the page: then the
  // style sheet's own colours by candle hold always, or never.
  let shade = "";
  const dark = () => shade ? shade === "candle" : candle.matches;
  const light = () => forced.matches ? "contrast" : dark() ? "dark" : "light";
  const byCandle = [...document.styleSheets].flatMap((s) => { try { return [...s.cssRules]; } catch { return []; } })
    .filter((r) => r.media && r.media.mediaText === candle.media);
  const shine = (how) => {
    shade = how;
    for (const rule of byCandle) rule.media.mediaText = { day: "not all", candle: "all" }[how] || candle.media;
    root.style.colorScheme = { day: "light", candle: "dark" }[how] || "";
    tell("candle", light(), "");
  };
  // The choice holds on this device. Its key is none of the ruffs'.
  const shadeKey = "ruffwright-shade";
  try {
    const chosen = localStorage.getItem(shadeKey);
    if (chosen === "day" || chosen === "candle") shine(chosen);
  } catch { /* as the system says */ }
  for (const query of [candle, forced]) query.addEventListener("change", () => tell("candle", light(), ""));
  const still = matchMedia("(prefers-reduced-motion: reduce)");
  const calm = () => still.matches ? "yes" : "no";
  still.addEventListener("change", () => tell("calm", calm(), ""));

  const onStage = openStage({ tell, compiled: () => compiled("stage") });
  openHandles({ tell });
  const easel = openEasel({ tell, hire });

  // ---- at home and abroad ---------------------------------------------------
  // A served page keeps itself for the next time without a network, once it has
  // nothing more urgent to do. A frame that takes the page's own address from it
  // (a sandbox without allow-same-origin) lets it load no programs: then it
  // offers a tab of its own.

  // What it says of that is true while the store is whole: the service worker looks,
  // fetches again what is missing, and tells.

  let stocked = !here.dataset.offline || !isSecureContext;
  byId("stocked").hidden = stocked;
  const stock = () => {
    if (stocked) return;
    stocked = true;
    try { // the browser may deny even to be asked
      navigator.serviceWorker.register(here.dataset.offline).catch(() => {});
      navigator.serviceWorker.ready.then((r) => {
        const ask = () => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = ({ data }) => { byId("stocked").toggleAttribute("data-done", data); };
          r.active.postMessage("whole", [port2]);
        };
        ask();
        for (const cue of ["online", "offline"]) addEventListener(cue, ask);
        document.addEventListener("visibilitychange", ask);
      }).catch(() => {});
    } catch { /* then it needs its network */ }
  };

  const boxed = !whole && self.origin === "null" && location.protocol !== "file:";
  root.dataset.loader = "runs";
  byId("own-tab").href = location.href;
  addEventListener("hashchange", () => { byId("own-tab").href = location.href; });
  byId("own-address").textContent = location.href;

  // The licences: a file beside the served page, packed in the page that is one file.
  if (whole) {
    parcel("notices").then((bytes) => {
      byId("notices").href = URL.createObjectURL(new Blob([bytes], { type: "text/plain;charset=utf-8" }));
    }, () => {}); // said where the programs do not come
  }

  // ---- start --------------------------------------------------------------

  // Nothing that is entered from now on would have an effect: nothing can be.
  // What was typed stays to be read and copied.
  const freeze = () => {
    for (const e of document.querySelectorAll("[data-do], [data-key]")) {
      if (e.matches("input:not([type=range]), textarea")) e.readOnly = true;
      else if ("disabled" in e) e.disabled = true;
      else e.removeAttribute("href");
    }
    for (const name in hands) hands[name].end();
    easel.stop();
  };

  const fail = (why) => {
    if (stopped) return; // said already
    stopped = true;
    const ran = root.dataset.program === "runs";
    root.dataset.program = "failed";
    root.toggleAttribute("data-ran", ran);
    byId("picture").hidden = onStage.seen();
    freeze();
    byId("state").textContent = byId("state").dataset[ran ? "stopped" : "fail"];
    byId("state").dataset.state = "stopped";
    byId("said").textContent = "";
    if (boxed) { root.dataset.loader = "boxed"; return; } // the page says it otherwise
    byId("failure-why").textContent = String(why && why.message ? why.message : why);
    byId("failure-load").hidden = ran;
    byId("failure-last").hidden = !ran || !last;
    if (ran) byId("failure-title").textContent = byId("failure-title").dataset.stopped;
    if (ran && last) {
      const link = byId("rescue-link");
      link.href = location.href.split("#")[0] + (last.was || "");
      link.hidden = byId("rescue-reload").hidden = !last.was;
      link.addEventListener("click", (e) => e.preventDefault()); // to copy: followed it would only change the address
      byId("rescue-reload").addEventListener("click", () => { location.hash = last.was; location.reload(); });
      byId("rescue-save").addEventListener("click", () => download(last.name, last.value, "application/json"));
    }
    byId("failure").hidden = false;
  };

  globalThis.ruffwright = {
    start: (fn) => {
      answer = fn;
      if (root.dataset.program === "opening") byId("state").textContent = "";
      const name = Date.now().toString(36) + "-" + Math.random().toString(36).slice(2, 10);
      const first = [["tab", name, ""], ["cores", "", String(navigator.hardwareConcurrency || 1)], ["recalled", ...recall()], onStage.sized(),
        ["candle", light(), ""], ["calm", calm(), ""], ["place", "", location.href.split("#")[0]], ["address", "", location.hash], ["begin", "", ""]];
      if (shade) first.push(["do", "shade", shade]);
      for (const [k, n, v] of first.concat(waiting.splice(0))) tell(k, n, v);
      root.dataset.program = "runs";
      setTimeout(stock, 20000); // solved or not
    },
    fail,
  };

  // On a telephone what shows the ruff otherwise is folded at first; on a larger screen,
  // where nothing else opens it, it never is.
  const telephone = matchMedia("(max-width: 30rem)"), shown = byId("shown");
  if (telephone.matches) shown.open = false;
  telephone.addEventListener("change", () => { if (!telephone.matches) shown.open = true; });

  // painted ends when the form is on the screen: only then may the program cost
  // anything. A page that is not seen is not waited for.
  const painted = () => new Promise((done) => {
    setTimeout(done, document.hidden ? 0 : 2000);
    if (!PerformanceObserver.supportedEntryTypes.includes("paint")) requestAnimationFrame(() => setTimeout(done));
    else new PerformanceObserver(done).observe({ type: "paint", buffered: true });
  });

  const run = async () => {
    if (/^#\d+\./.test(location.hash) || recall()[1].includes('"ruffwright.work"')) {
      // What stands there is the start's, not this ruff's.
      byId("picture").hidden = true;
      root.dataset.program = "opening";
      byId("state").textContent = byId("state").dataset.opening;
    }
    if (!("WebAssembly" in globalThis) || !whole && !here.dataset.program) throw new Error(words.old);
    await painted();
    const go = new Go();
    const instance = await WebAssembly.instantiate(await compiled("program"), go.importObject);
    performance.mark("ruffwright-compiled");
    const ended = go.run(instance);
    performance.mark("ruffwright-main");
    onStage.start();
    await ended;
    throw new Error(words.ended);
  };
  run().catch(fail);
})();
