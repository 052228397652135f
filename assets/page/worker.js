// The solver's thread. The page says where the program is, or hands it over;
// from then on the program itself listens. What keeps it from running, or ends
// it, is told.
"use strict";
onmessage = ({ data }) => {
  onmessage = null;
  (async () => {
    if (data.exec) importScripts(data.exec);
    const go = new Go();
    const response = data.bytes ? null : await fetch(data.program);
    if (response && !response.ok) throw new Error(`its program did not arrive (the server answered ${response.status})`);
    const { instance } = response && WebAssembly.instantiateStreaming
      ? await WebAssembly.instantiateStreaming(response, go.importObject)
      : await WebAssembly.instantiate(response ? await response.arrayBuffer() : data.bytes, go.importObject);
    await go.run(instance);
    throw new Error("its program ended by itself");
  })().catch((why) => postMessage({ dead: String(why && why.message ? why.message : why) }));
};
