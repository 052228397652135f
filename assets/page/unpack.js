// Reads the programs that lie packed in the page that is one file. They are one
// LZMA stream (the .lzma form: 13 bytes of head, then the range coder's bytes)
// at seven bits a letter. unpacked calls take with the name and the bytes of each part, in
// their order, as soon as it is whole; a stream that is damaged is an error.
// In a worker the page asks for it by a message; where there are no workers the
// page calls it.
"use strict";
(() => {
  // A letter is seven bits; 127 says that the next one stands for what cannot
  // stand in a page: @ for 0, A for 13, B for 60, C for 127.
  const bytesOf = (text) => {
    const bytes = new Uint8Array(Math.floor(text.length * 7 / 8)), rare = [0, 13, 60, 127];
    let n = 0, held = 0, bits = 0;
    for (let i = 0; i < text.length; i++) {
      let c = text.charCodeAt(i);
      if (c === 127) c = rare[text.charCodeAt(++i) - 64];
      held = held << 7 | c;
      bits += 7;
      if (bits >= 8) bytes[n++] = held >>> (bits -= 8);
    }
    return bytes.subarray(0, n);
  };

  // Places of the models' probabilities, as in LZMA's own description: 12 states,
  // each with room for 16 position states where these count, then the literals.
  const isMatch = 0, isRep0Long = 192, isRep = 384, isRep0 = 396, isRep1 = 408, isRep2 = 420;
  const slots = 432, special = slots + 4 * 64, aligned = special + 128, lengths = aligned + 16;
  const lengthSize = 2 + 16 * 8 + 16 * 8 + 256, literals = lengths + 2 * lengthSize;

  const decode = (packed, out, reached) => {
    const head = packed[0], lc = head % 9, lp = Math.floor(head / 9) % 5, pb = Math.floor(head / 45);
    if (lp !== 0 || pb > 4) throw new Error("the packed programs are of another kind");
    const probs = new Uint16Array(literals + (0x300 << lc)).fill(1024);
    const end = out.length, positions = (1 << pb) - 1;
    // What the range coder holds: in an array, for a variable of two functions
    // would be a number object anew with every step.
    const coder = new Uint32Array([0xffffffff, packed[14] << 24 | packed[15] << 16 | packed[16] << 8 | packed[17], 18]);
    const range = 0, code = 1, at = 2;

    const bit = (i) => {
      const p = probs[i], wide = coder[range], bound = Math.imul(wide >>> 11, p) >>> 0, c = coder[code];
      if (c < bound) {
        probs[i] = p + ((2048 - p) >>> 5);
        if (bound >= 0x1000000) coder[range] = bound;
        else {
          coder[range] = bound << 8;
          coder[code] = c << 8 | packed[coder[at]++];
        }
        return 0;
      }
      probs[i] = p - (p >>> 5);
      const rest = wide - bound;
      if (rest >= 0x1000000) {
        coder[range] = rest;
        coder[code] = c - bound;
      } else {
        coder[range] = rest << 8;
        coder[code] = (c - bound) << 8 | packed[coder[at]++];
      }
      return 1;
    };
    const tree = (from, bits) => {
      let m = 1;
      for (let i = bits; i > 0; i--) m = m << 1 | bit(from + m);
      return m - (1 << bits);
    };
    const reverse = (from, bits) => {
      let m = 1, v = 0;
      for (let i = 0; i < bits; i++) {
        const b = bit(from + m);
        m = m << 1 | b;
        v |= b << i;
      }
      return v;
    };
    const length = (from, position) => {
      if (bit(from) === 0) return 2 + tree(from + 2 + 8 * position, 3);
      if (bit(from + 1) === 0) return 10 + tree(from + 130 + 8 * position, 3);
      return 18 + tree(from + 258, 8);
    };

    let state = 0, rep0 = 0, rep1 = 0, rep2 = 0, rep3 = 0, n = 0, next = reached(0);
    while (n < end) {
      if (n >= next) next = reached(n);
      if (coder[at] > packed.length + 4) throw new Error("the packed programs are cut short");
      const position = n & positions;
      if (bit(isMatch + 16 * state + position) === 0) {
        const from = literals + 0x300 * (n > 0 ? out[n - 1] >>> (8 - lc) : 0);
        let m = 1;
        if (state >= 7) {
          let like = out[n - rep0 - 1];
          do {
            const want = like >>> 7 & 1, b = bit(from + (1 + want << 8) + m);
            like <<= 1;
            m = m << 1 | b;
            if (want !== b) break;
          } while (m < 0x100);
        }
        while (m < 0x100) m = m << 1 | bit(from + m);
        out[n++] = m;
        state = state < 4 ? 0 : state < 10 ? state - 3 : state - 6;
        continue;
      }
      let len;
      if (bit(isRep + state) === 0) {
        rep3 = rep2; rep2 = rep1; rep1 = rep0;
        len = length(lengths, position);
        state = state < 7 ? 7 : 10;
        const slot = tree(slots + 64 * Math.min(len - 2, 3), 6);
        if (slot < 4) rep0 = slot;
        else {
          const low = (slot >>> 1) - 1;
          rep0 = (2 | slot & 1) << low;
          if (slot < 14) rep0 += reverse(special + rep0 - slot, low);
          else {
            for (let i = low - 1; i >= 4; i--) { // bits without a model
              coder[range] >>>= 1;
              const b = coder[code] >= coder[range] ? 1 : 0;
              if (b) coder[code] -= coder[range];
              rep0 += b << i;
              if (coder[range] < 0x1000000) {
                coder[range] <<= 8;
                coder[code] = coder[code] << 8 | packed[coder[at]++];
              }
            }
            rep0 += reverse(aligned, 4);
          }
        }
      } else {
        if (bit(isRep0 + state) === 0) {
          if (bit(isRep0Long + 16 * state + position) === 0) {
            if (rep0 >= n) throw new Error("the packed programs are damaged");
            state = state < 7 ? 9 : 11;
            out[n] = out[n - rep0 - 1];
            n++;
            continue;
          }
        } else {
          let far;
          if (bit(isRep1 + state) === 0) far = rep1;
          else {
            if (bit(isRep2 + state) === 0) far = rep2;
            else { far = rep3; rep3 = rep2; }
            rep2 = rep1;
          }
          rep1 = rep0;
          rep0 = far;
        }
        len = length(lengths + lengthSize, position);
        state = state < 7 ? 8 : 11;
      }
      if (rep0 < 0 || rep0 >= n || n + len > end) throw new Error("the packed programs are damaged");
      for (const stop = n + len; n < stop; n++) out[n] = out[n - rep0 - 1];
    }
    reached(n);
  };

  const unpacked = (text, parts, take) => {
    const packed = bytesOf(text);
    const total = parts.reduce((sum, part) => sum + part.size, 0);
    const said = new DataView(packed.buffer, 0, packed.length).getUint32(5, true);
    if (said !== total) throw new Error("the packed programs are of another size");
    const out = new Uint8Array(total);
    let part = 0, from = 0;
    decode(packed, out, (n) => { // n bytes are there; answers when it wants to hear again
      while (part < parts.length && n >= from + parts[part].size) {
        const { name, size } = parts[part++];
        take(name, out.slice(from, from + size).buffer);
        from += size;
      }
      return part < parts.length ? from + parts[part].size : Infinity;
    });
  };

  if (globalThis.document) globalThis.unpacked = unpacked;
  else onmessage = ({ data }) => {
    try {
      unpacked(data.text, data.parts, (name, bytes) => postMessage({ name, bytes }, [bytes]));
      postMessage({ done: true });
    } catch (why) {
      postMessage({ failed: String(why && why.message ? why.message : why) });
    }
  };
})();
